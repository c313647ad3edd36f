import { byteAt } from './bytes.ts';
import type { Columns } from './columns.ts';
import type { SysEx } from './score.ts';

const none = new Uint8Array(0);

/**
 * The F0 and F7 packets of one track. Their bytes are transmitted as they stand (SMF 1.0, "MTrk
 * Chunks", sysex_event), so they are read as a receiver reads them: a system exclusive message runs
 * from F0 to F7 or to the next other status (MIDI 1.0 Detailed Specification, "System Exclusive"),
 * over as many packets as it takes; real-time bytes may stand anywhere; a complete channel message
 * is an event like any other.
 */
export class Packets {
  readonly sysex: SysEx[] = [];
  /** Packets that hold something other than system exclusive data, and where the first stands. */
  escapes = 0;
  firstEscape: { readonly tick: number; readonly byte: number } | null = null;

  private readonly columns: Columns;
  /** Index of the track's first event in the columns. */
  private readonly base: number;
  /** Bytes of the message being joined. */
  private data: Uint8Array = none;
  private length = 0;
  private open = false;
  private at = { tick: 0, before: 0, port: 0 };

  constructor(columns: Columns) {
    this.columns = columns;
    this.base = columns.length;
  }

  /** @param status F0 begins a message, F7 goes on with one or stands alone */
  read(status: number, bytes: Uint8Array, from: number, to: number, tick: number, port: number) {
    // A channel message since the last packet has ended what was open.
    if (this.open && this.at.before !== this.events) this.close();
    let escape = false;
    if (status === 0xf0) this.begin(tick, port);
    else if (this.open) this.at = { ...this.at, tick };
    else escape = true;

    let message = 0;
    let first = -1;
    for (let index = from; index < to; index += 1) {
      const byte = byteAt(bytes, index);
      if (byte >= 0xf8) continue;
      if (byte >= 0x80) {
        if (byte === 0xf0) this.begin(tick, port);
        else this.close();
        message = byte < 0xf0 ? byte : 0;
        first = -1;
      } else if (this.open) this.append(byte);
      else if (message !== 0) {
        const single = (message & 0xe0) === 0xc0;
        if (!single && first < 0) {
          first = byte;
          continue;
        }
        this.columns.push(tick, message, single ? byte : first, single ? 0 : byte);
        first = -1;
        escape = true;
      }
    }
    if (escape) {
      this.escapes += 1;
      this.firstEscape ??= { tick, byte: from };
    }
  }

  /** Ends the message that is still open, F7 or not. */
  close(): void {
    if (this.open && this.length > 0) {
      this.sysex.push({ ...this.at, data: this.data.slice(0, this.length) });
    }
    this.open = false;
  }

  private get events(): number {
    return this.columns.length - this.base;
  }

  private begin(tick: number, port: number): void {
    this.close();
    this.open = true;
    this.length = 0;
    this.at = { tick, before: this.events, port };
  }

  private append(byte: number): void {
    if (this.length === this.data.length) {
      const longer = new Uint8Array(Math.max(64, this.length * 2));
      longer.set(this.data);
      this.data = longer;
    }
    this.data[this.length] = byte;
    this.length += 1;
  }
}
