import type { Columns } from './columns.ts';
import { quantityCut, quantitySize, quantityValue, readQuantity } from './quantity.ts';

/** Where reading a track stands. */
export interface Cursor {
  /** Offset of the next byte. */
  byte: number;
  /** Tick of the last event read whole. */
  tick: number;
  /** Tick of the event that is being read. */
  due: number;
  /** Running status; 0 when there is none yet. */
  running: number;
}

/** What ended a run of channel messages. */
export type Halt =
  | 'end'
  | 'full'
  | 'system'
  | 'track-truncated'
  | 'track-quantity'
  | 'track-status'
  | 'track-data-byte';

/**
 * Reads channel messages into the columns until something else comes: the end of the track, a system
 * or meta event (`cursor.byte` is at its status, `cursor.due` its tick), columns that are full, or a
 * byte that has no place there (`cursor.byte` is at it).
 *
 * Nearly all the time of reading is spent here. So the state is in local variables, the columns do
 * not change while the loop runs, nothing is allocated and hardly anything called: most cues are
 * over before the engine has compiled the loop.
 */
export const readChannelEvents = (
  bytes: Uint8Array,
  end: number,
  columns: Columns,
  cursor: Cursor,
): Halt => {
  const { tick: ticks, status: statuses, data1: firsts, data2: seconds } = columns;
  const capacity = ticks.length;
  let { byte, tick, running } = cursor;
  let count = columns.length;
  let due = tick;
  let halt: Halt = 'end';

  while (byte < end) {
    if (count === capacity) {
      halt = 'full';
      break;
    }
    const delta = bytes[byte] as number;
    if (delta < 0x80) {
      due = tick + delta;
      byte += 1;
    } else {
      const packed = readQuantity(bytes, byte, end);
      if (packed < 0) {
        halt = packed === quantityCut ? 'track-truncated' : 'track-quantity';
        break;
      }
      due = tick + quantityValue(packed);
      byte += quantitySize(packed);
    }
    if (byte >= end) {
      halt = 'track-truncated';
      break;
    }
    const status = bytes[byte] as number;
    if (status >= 0x80) {
      if (status >= 0xf0) {
        halt = 'system';
        break;
      }
      running = status;
      byte += 1;
    } else if (running === 0) {
      halt = 'track-status';
      break;
    }

    // Program change (C0) and channel pressure (D0) have one data byte, all others two.
    const next = byte + ((running & 0xe0) === 0xc0 ? 1 : 2);
    if (next > end) {
      const bad = byte < end && (bytes[byte] as number) >= 0x80;
      halt = bad ? 'track-data-byte' : 'track-truncated';
      break;
    }
    const first = bytes[byte] as number;
    const second = next - byte === 1 ? 0 : (bytes[byte + 1] as number);
    if ((first | second) >= 0x80) {
      if (first < 0x80) byte += 1;
      halt = 'track-data-byte';
      break;
    }
    byte = next;
    tick = due;
    ticks[count] = tick;
    statuses[count] = running;
    firsts[count] = first;
    seconds[count] = second;
    count += 1;
  }

  columns.length = count;
  cursor.byte = byte;
  cursor.tick = tick;
  cursor.due = due;
  cursor.running = running;
  return halt;
};
