import { hex } from './hex.ts';

/** Byte strings one after the other. */
export const join = (...parts: readonly Uint8Array[]): Uint8Array => {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};

const word = (value: number): number[] => [(value >>> 8) & 0xff, value & 0xff];

const long = (value: number): number[] => [...word(value >>> 16), ...word(value)];

/** A chunk (SMF 1.0, "Chunks"); `length` may state something else than its data has. */
export const chunk = (id: string, data: Uint8Array, length = data.length): Uint8Array =>
  join(Uint8Array.from([...id].map((letter) => letter.charCodeAt(0))), bytes(long(length)), data);

const bytes = (values: readonly number[]): Uint8Array => Uint8Array.from(values);

export interface HeaderText {
  readonly format?: number;
  /** Tracks promised. */
  readonly count?: number;
  /** The division as hex; 480 ticks a quarter note by default. */
  readonly division?: string;
}

/** A header chunk. */
export const header = ({
  format = 1,
  count = 1,
  division = '01 E0',
}: HeaderText = {}): Uint8Array =>
  chunk('MThd', join(bytes([...word(format), ...word(count)]), hex(division)));

/** A track chunk from commented hex. */
export const track = (text: string): Uint8Array => chunk('MTrk', hex(text));

/** A file of the given tracks, each in commented hex; the header promises as many unless told. */
export const smf = (tracks: readonly string[], head: HeaderText = {}): Uint8Array =>
  join(header({ count: tracks.length, ...head }), ...tracks.map(track));
