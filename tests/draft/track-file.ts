import { chunk, header, join } from '../midi/smf-file.ts';

/** A track of a cue made for a test. */
export interface TestTrack {
  /** Written in UTF-8; null: the file gives none. */
  readonly name: string | null;
  /** From 1; with several, each has all notes. */
  readonly channel?: number | readonly number[];
  /** From 1. */
  readonly port?: number;
  /** A note of a quarter each, one after the other. */
  readonly keys?: readonly number[];
  /** Notes of a 32nd behind those: short enough for keyswitches. */
  readonly shortKeys?: readonly number[];
  /** Program changes at the start. */
  readonly programs?: readonly number[];
}

const quantity = (value: number): readonly number[] => {
  const bytes = [value & 0x7f];
  for (let rest = value >> 7; rest > 0; rest >>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
};

const meta = (type: number, data: Iterable<number>): readonly number[] => {
  const bytes = [...data];
  return [0, 0xff, type, ...quantity(bytes.length), ...bytes];
};

const note = (key: number, channel: number, ticks: number): readonly number[] => [
  ...[0, 0x90 + channel - 1, key, 80],
  ...[...quantity(ticks), 0x80 + channel - 1, key, 64],
];

const trackBytes = ({
  name,
  channel = 1,
  port,
  keys = [60],
  shortKeys = [],
  programs = [],
}: TestTrack): Uint8Array =>
  Uint8Array.from([
    ...(name === null ? [] : meta(0x03, new TextEncoder().encode(name))),
    ...(port === undefined ? [] : meta(0x21, [port - 1])),
    ...[channel]
      .flat()
      .flatMap((one) => [
        ...programs.flatMap((program) => [0, 0xc0 + one - 1, program]),
        ...keys.flatMap((key) => note(key, one, 480)),
        ...shortKeys.flatMap((key) => note(key, one, 60)),
      ]),
    ...meta(0x2f, []),
  ]);

/** A Standard MIDI File of format 1 with these tracks. */
export const cueOf = (tracks: readonly TestTrack[]): Uint8Array =>
  join(
    header({ format: 1, count: tracks.length }),
    ...tracks.map((track) => chunk('MTrk', trackBytes(track))),
  );

/** The same of format 0: one track. */
export const oneTrack = (track: TestTrack): Uint8Array =>
  join(header({ format: 0, count: 1 }), chunk('MTrk', trackBytes(track)));
