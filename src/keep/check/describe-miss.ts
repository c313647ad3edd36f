import type { Instrument } from '../../instruments/instrument.ts';
import { comparePlaces } from '../../playback/class-table.ts';
import type { FileUsage, WitnessPlace } from '../../playback/zone-usage.ts';
import { namesOf } from '../../terms/doubt.ts';
import { toRanges, type Range } from '../../terms/range.ts';
import type { Player } from '../../template/player.ts';
import { barOf, witnessOf } from '../witness.ts';
import { zoneFacts } from '../zone-facts.ts';
import type { Miss, MissBars } from './check.ts';
import { countsAsNote, type Asking, type FoundMiss } from './find-misses.ts';

/** How many places are told of each miss. */
const placeLimit = 3;

/** What a person needs to find a miss: the zone, the notes that ask for it, and where they are. */
export type DescribedMiss = Omit<Miss, 'machine' | 'unit' | 'bytes' | 'fits' | 'ways'>;

/** @param files all checked files, in reel order */
export const describeMiss = (
  instrument: Instrument,
  player: Player,
  { zone, copy, silent, isPreset, starts, doubts, asking: all }: FoundMiss,
  files: readonly FileUsage[],
): DescribedMiss => {
  const { zone: id, key, samples, articulations } = zoneFacts(instrument, player, zone);
  // Where only a preset is missing, the others that use the zone are none of it.
  const asked = isPreset
    ? [...new Set([...starts].map((start) => instrument.program.starts[start]!.articulation))]
    : articulations;
  // Where the plain reading asks for it, those notes are the ones to look at.
  const plainly = all.filter(({ isPlain }) => isPlain);
  const asking = plainly.length > 0 ? plainly : all;
  const cues = new Map<string, number>();
  let notes = 0;
  let velocities: Range | null = null;
  const keys = new Set<number>();
  for (const { file, class: one } of asking) {
    const count = countsAsNote(one) ? one.count : 0;
    notes += count;
    cues.set(file.cue, (cues.get(file.cue) ?? 0) + count);
    if (one.event === 'change') continue;
    keys.add(one.key);
    const [lo, hi]: Range = velocities ?? [one.velocity, one.velocity];
    velocities = [Math.min(lo, one.velocity), Math.max(hi, one.velocity)];
  }
  return {
    instrument: instrument.id,
    copy,
    zone: id,
    key,
    samples,
    articulations: asked.map((index) => instrument.articulations[index]!.name),
    silent,
    isPreset,
    doubts: doubts.map(namesOf),
    notes,
    doubtfulNotes: countNotes(all) - notes,
    cues: Object.fromEntries([...cues].sort(([a], [b]) => rank(files, a) - rank(files, b))),
    keys: toRanges(keys),
    velocities,
    places: firstPlaces(asking, files),
    bars: barsOf(asking, files),
  };
};

const countNotes = (asking: readonly Asking[]): number =>
  asking.reduce((sum, { class: one }) => sum + (countsAsNote(one) ? one.count : 0), 0);

const rank = (files: readonly FileUsage[], cue: string): number =>
  files.findIndex((file) => file.cue === cue);

const firstPlaces = (asking: readonly Asking[], files: readonly FileUsage[]): Miss['places'] =>
  asking
    .flatMap(({ file, class: one }) =>
      one.witnesses
        .slice(0, placeLimit)
        .map((place) => ({ file, place, one, reel: files.indexOf(file) })),
    )
    .sort((a, b) => a.reel - b.reel || comparePlaces(a.place, b.place))
    .slice(0, placeLimit)
    .map(({ file, place, one }) =>
      one.event === 'change'
        ? witnessOf(file, place, null, null)
        : witnessOf(file, place, one.key, one.velocity),
    );

const barsOf = (asking: readonly Asking[], files: readonly FileUsage[]): readonly MissBars[] => {
  const bars = new Map<FileUsage, Map<number, Set<number>>>();
  const add = (file: FileUsage, place: WitnessPlace): void => {
    const tracks = bars.get(file) ?? new Map<number, Set<number>>();
    bars.set(file, tracks);
    const own = tracks.get(place[0]) ?? new Set<number>();
    tracks.set(place[0], own);
    own.add(barOf(file, place));
  };
  for (const { file, class: one } of asking) for (const place of one.witnesses) add(file, place);
  return [...bars]
    .sort(([a], [b]) => files.indexOf(a) - files.indexOf(b))
    .flatMap(([file, tracks]) =>
      [...tracks]
        .sort(([a], [b]) => a - b)
        .map(([track, own]) => ({
          cue: file.cue,
          track,
          trackName: file.tracks[track]!.name,
          bars: toRanges(own),
        })),
    );
};
