import { expect } from 'vitest';
import type { Instrument } from '../../../../src/instruments/instrument.ts';
import type { WayOut } from '../../../../src/keep/check/check.ts';
import { reachedClasses, type ReachedClass } from '../../../../src/keep/reach.ts';
import { partsOf } from '../../../../src/midi/parts.ts';
import type { Score } from '../../../../src/midi/score.ts';
import { asExported } from '../../../../src/playback/play-copy.ts';
import { playCue } from '../../../../src/playback/play-cue.ts';
import type { FileUsage } from '../../../../src/playback/zone-usage.ts';
import { routedWhole } from '../../../playback/whole-cue.ts';
import { missingOf, missingZones, soundingNotes, type Kept } from './found.ts';

/** Plays cues on one instrument, with every place; in one of its articulations where that is named. */
export const play = (
  instrument: Instrument,
  scores: readonly Score[],
  articulation: string | null = null,
): readonly FileUsage[] =>
  scores.map((score, i) => {
    const parts = partsOf(score);
    const cue = `1m${String(i + 1)}`;
    const file = { cue, path: `${cue}.mid`, sha256: cue, version: null, file: 0 };
    const routed = routedWhole(instrument, score, parts);
    const copies = routed.copies.map((copy) => ({ ...copy, articulation }));
    const instruments = new Map([[instrument.id, instrument]]);
    const options = { ...asExported, everyPlace: true } as const;
    return playCue(file, score, parts, { ...routed, copies }, instruments, options);
  });

/** What the copies of a miss play: those that ask for the zone in some file, in all files. */
interface Concerned {
  readonly copies: ReadonlySet<string>;
  /** Copies, keys and velocities of the notes that ask. */
  readonly notes: ReadonlySet<string>;
}

const noteOf = ({ copy, class: { key, velocity } }: ReachedClass): string =>
  JSON.stringify([copy.copy, key, velocity]);

const concernedBy = (
  instrument: Instrument,
  files: readonly FileUsage[],
  kept: Kept,
  zone: number,
): Concerned => {
  const asking = [...reachedClasses(instrument, files)].filter((one) =>
    missingOf(one, kept).includes(zone),
  );
  return {
    copies: new Set(asking.map(({ copy }) => copy.copy)),
    notes: new Set(asking.map(noteOf)),
  };
};

/** A copy of a score in which some messages to some copies have another second data byte. */
const changed = (
  instrument: Instrument,
  score: Score,
  { copies }: Concerned,
  change: (status: number, data1: number, data2: number) => number,
): Score => {
  const routed = routedWhole(instrument, score, partsOf(score));
  const concerned = routed.copies.filter(({ name }) => copies.has(name));
  const tracks = new Set(concerned.flatMap(({ sources }) => sources.map(({ track }) => track)));
  return {
    ...score,
    tracks: score.tracks.map((track) => {
      if (!tracks.has(track.index)) return track;
      const { status, data1, data2 } = track.events;
      const data = data2.map((value, i) => change(status[i]! & 0xf0, data1[i]!, value));
      return { ...track, events: { ...track.events, data2: data } };
    }),
  };
};

/** What a way makes of a message. */
const changeBy = (
  way: Exclude<WayOut, { kind: 'articulation' }>,
): ((status: number, data1: number, data2: number) => number) => {
  if (way.kind === 'velocity') {
    const to = new Map(way.changes.map((one) => [one.key * 128 + one.from, one.to]));
    return (kind, key, velocity) =>
      kind === 0x90 && velocity > 0 ? (to.get(key * 128 + velocity) ?? velocity) : velocity;
  }
  return (kind, controller, value) => {
    if (kind !== 0xb0 || controller !== way.number) return value;
    return way.limit === 'at-most' ? Math.min(value, way.to) : Math.max(value, way.to);
  };
};

/**
 * Takes a way out of a miss in a copy of the cues, plays them again, and expects that the miss is gone,
 * that no other has come, and that no note has fallen silent.
 */
export const expectTrue = (
  instrument: Instrument,
  scores: readonly Score[],
  kept: Kept,
  zone: number,
  way: WayOut,
): void => {
  const files = play(instrument, scores);
  const about = `${JSON.stringify(way)} for zone ${String(zone)}`;
  const concerned = concernedBy(instrument, files, kept, zone);
  expect(concerned.notes.size, about).toBeGreaterThan(0);
  if (way.kind === 'articulation') {
    const then = play(instrument, scores, way.articulation);
    expectNotes(instrument, then, kept, concerned, about);
    return;
  }
  const then = play(
    instrument,
    scores.map((score) => changed(instrument, score, concerned, changeBy(way))),
  );
  const before = missingZones(instrument, files, kept);
  const after = missingZones(instrument, then, kept);
  expect(after, about).not.toContain(zone);
  expect([...before], about).toEqual(expect.arrayContaining([...after]));
  expect(soundingNotes(instrument, then), about).toBeGreaterThanOrEqual(
    soundingNotes(instrument, files),
  );
};

/** Expects that some notes sound, with all that they start from strike to release. */
const expectNotes = (
  instrument: Instrument,
  files: readonly FileUsage[],
  kept: Kept,
  { notes }: Concerned,
  about: string,
): void => {
  const strikes = new Set<string>();
  for (const one of reachedClasses(instrument, files)) {
    if (one.class.event === 'change' || !notes.has(noteOf(one))) continue;
    expect(missingOf(one, kept), about).toEqual([]);
    if (one.class.event !== 'note-on') continue;
    if (one.starts.some(({ doubts }) => doubts[0] === 0)) strikes.add(noteOf(one));
  }
  expect(strikes, about).toEqual(notes);
};
