import { byteAt } from './bytes.ts';
import { readChannelEvents, type Cursor, type Halt } from './channel-events.ts';
import type { Columns } from './columns.ts';
import { quantityCut, quantitySize, quantityValue, readQuantity } from './quantity.ts';

const endOfTrack = 0x2f;

/** Receives what is no channel message. Ticks are absolute, `from` and `to` offsets in the file. */
export interface TrackSink {
  /** A meta event, End of Track among them. */
  meta(type: number, from: number, to: number, tick: number): void;
  /** An F0 or F7 packet. May append events to the columns. */
  packet(status: number, from: number, to: number, tick: number): void;
  /** Running status is used at `byte` although a meta event or SysEx stands before it. */
  carried(byte: number, tick: number): void;
}

/** What reading stopped at; `track-…` is the code of a finding, the rest is no fault. */
export type Stop = Exclude<Halt, 'full' | 'system'> | 'end-of-track';

export interface TrackScan {
  readonly stop: Stop;
  /** The first byte that was not read: behind End of Track, at the end, or the one at fault. */
  readonly byte: number;
  /** The tick of End of Track, or of the last event read whole. */
  readonly tick: number;
}

/** Reads the meta event or packet that the cursor is at; null when the track goes on behind it. */
const readSystemEvent = (
  bytes: Uint8Array,
  end: number,
  cursor: Cursor,
  sink: TrackSink,
): Stop | null => {
  const status = byteAt(bytes, cursor.byte);
  const isMeta = status === 0xff;
  if (!isMeta && status !== 0xf0 && status !== 0xf7) return 'track-status';
  const lengthAt = cursor.byte + (isMeta ? 2 : 1);
  const packed = readQuantity(bytes, lengthAt, end);
  if (packed < 0) return packed === quantityCut ? 'track-truncated' : 'track-quantity';
  const from = lengthAt + quantitySize(packed);
  const to = from + quantityValue(packed);
  if (to > end) return 'track-truncated';
  const type = byteAt(bytes, lengthAt - 1);
  cursor.byte = to;
  cursor.tick = cursor.due;
  if (!isMeta) sink.packet(status, from, to, cursor.tick);
  else {
    sink.meta(type, from, to, cursor.tick);
    if (type === endOfTrack) return 'end-of-track';
  }
  return null;
};

/**
 * The standard cancels running status at a meta event or SysEx; real files carry it over and mean
 * it, their note-offs match. It is carried over, and told.
 */
const tellCarried = (bytes: Uint8Array, end: number, cursor: Cursor, sink: TrackSink): void => {
  const packed = cursor.running === 0 ? quantityCut : readQuantity(bytes, cursor.byte, end);
  if (packed < 0) return;
  const at = cursor.byte + quantitySize(packed);
  if (at < end && byteAt(bytes, at) < 0x80) sink.carried(at, cursor.tick + quantityValue(packed));
};

/**
 * Reads the events of one track chunk into `columns` and `sink`, in one pass (SMF 1.0, "MTrk
 * Chunks"). Never reads outside `start` to `end`, never throws.
 */
export const scanTrack = (
  bytes: Uint8Array,
  start: number,
  end: number,
  columns: Columns,
  sink: TrackSink,
): TrackScan => {
  const cursor: Cursor = { byte: start, tick: 0, due: 0, running: 0 };
  let stop: Stop | null = null;
  while (stop === null) {
    const halt = readChannelEvents(bytes, end, columns, cursor);
    if (halt === 'full') columns.grow();
    else if (halt === 'system') {
      stop = readSystemEvent(bytes, end, cursor, sink);
      if (stop === null) tellCarried(bytes, end, cursor, sink);
    } else stop = halt;
  }
  return { stop, byte: cursor.byte, tick: cursor.tick };
};
