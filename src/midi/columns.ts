import type { EventColumns } from './score.ts';

/** Half of a file's bytes or less are tick deltas; three bytes an event is a dense export. */
const bytesPerEvent = 3;

/**
 * Events of a whole file while it is read: one set of columns that every track appends to, so that
 * a file of a hundred short tracks takes four allocations, not four hundred. Tracks are views cut
 * out at the end.
 */
export class Columns {
  tick!: Float64Array;
  status!: Uint8Array;
  data1!: Uint8Array;
  data2!: Uint8Array;
  /** Events held. */
  length = 0;

  /** @param bytes size of the file: a bound on the events in it */
  constructor(bytes: number) {
    this.allot(Math.ceil(bytes / bytesPerEvent) + 1);
  }

  /** Makes room for more events; the arrays are new ones afterwards. */
  grow(): void {
    this.move(this.tick.length * 2);
  }

  private move(capacity: number): void {
    const { tick, status, data1, data2, length } = this;
    this.allot(capacity);
    this.tick.set(tick.subarray(0, length));
    this.status.set(status.subarray(0, length));
    this.data1.set(data1.subarray(0, length));
    this.data2.set(data2.subarray(0, length));
  }

  /** One buffer for all four: the cost of a small file is the number of its allocations. */
  private allot(capacity: number): void {
    const buffer = new ArrayBuffer(capacity * 11);
    this.tick = new Float64Array(buffer, 0, capacity);
    this.status = new Uint8Array(buffer, capacity * 8, capacity);
    this.data1 = new Uint8Array(buffer, capacity * 9, capacity);
    this.data2 = new Uint8Array(buffer, capacity * 10, capacity);
  }

  push(tick: number, status: number, data1: number, data2: number): void {
    if (this.length === this.tick.length) this.grow();
    this.tick[this.length] = tick;
    this.status[this.length] = status;
    this.data1[this.length] = data1;
    this.data2[this.length] = data2;
    this.length += 1;
  }

  /** Gives back the room that was not needed; nothing is appended any more. */
  trim(): void {
    if (this.length * 2 <= this.tick.length) this.move(this.length);
  }

  /** The events `from` to `to`, without `to`: views, not copies. */
  view(from: number, to: number): EventColumns {
    return {
      length: to - from,
      tick: this.tick.subarray(from, to),
      status: this.status.subarray(from, to),
      data1: this.data1.subarray(from, to),
      data2: this.data2.subarray(from, to),
    };
  }
}
