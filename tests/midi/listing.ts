import type { EventColumns, Score, SysEx } from '../../src/midi/score.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { InputError } from '../../src/terms/errors.ts';

const hexByte = (value: number): string => value.toString(16).toUpperCase().padStart(2, '0');

/** Bytes as hex, for comparison by eye. */
export const hexOf = (bytes: Iterable<number>): string => [...bytes].map(hexByte).join(' ');

/** Messages as `480 90 3C 64`: the tick, then status and data; one data byte where one is enough. */
export const listEvents = (events: EventColumns): string[] =>
  Array.from({ length: events.length }, (_, index) => {
    const status = events.status[index] ?? 0;
    const single = status >= 0xc0 && status < 0xe0;
    const data = [events.data1[index] ?? 0, ...(single ? [] : [events.data2[index] ?? 0])];
    return `${events.tick[index] ?? NaN} ${hexOf([status, ...data])}`;
  });

/** SysEx as `tick <before> port: data`. */
export const listSysex = (sysex: readonly SysEx[]): string[] =>
  sysex.map(({ tick, before, port, data }) => `${tick} <${before} ${port}: ${hexOf(data)}`);

/** Findings as `warning track-data-byte {"value":192}`. */
export const listFindings = (score: Score): string[] =>
  score.findings.map(({ severity, code, args }) =>
    `${severity} ${code} ${JSON.stringify(args)}`.replace(' {}', ''),
  );

/** What a table of damages compares. */
export interface Reading {
  readonly tracks: readonly (readonly string[])[];
  /** For each track null, or the tick and byte where reading stopped. */
  readonly damage: readonly ({ readonly tick: number; readonly byte: number } | null)[];
  readonly missing: number;
  readonly findings: readonly string[];
}

export const read = (bytes: Uint8Array): Reading => {
  const score = readMidi(bytes, 'cue.mid');
  return {
    tracks: score.tracks.map((track) => listEvents(track.events)),
    damage: score.tracks.map((track) => track.damage),
    missing: score.missingTracks,
    findings: listFindings(score),
  };
};

/** The code of the error that reading ends with. */
export const refusal = (bytes: Uint8Array): string => {
  try {
    readMidi(bytes, 'cue.mid');
  } catch (error) {
    if (error instanceof InputError) return error.finding.code;
    throw error;
  }
  return 'none';
};
