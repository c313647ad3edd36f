import type { Instrument } from '../instruments/instrument.ts';
import { doubtSet, plain, union, type DoubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import { comparePlaces } from '../playback/class-table.ts';
import type { FileUsage, UsageClass, WitnessPlace } from '../playback/zone-usage.ts';
import { holdsWithout } from './decision.ts';
import { reachedClasses } from './reach.ts';

/** How many notes prove a kept zone. */
const witnessLimit = 3;

const damage = [doubtSet('damage')];

/** A note of one file of the reel; `reel` is the file's place in reel order. */
export interface Proof {
  readonly reel: number;
  readonly file: FileUsage;
  readonly place: WitnessPlace;
  readonly key: number | null;
  readonly velocity: number | null;
}

/** Notes that reach one zone. */
export interface Notes {
  count: number;
  readonly byCue: Map<string, number>;
  proofs: Proof[];
}

/** What is played of one articulation by the plain reading. */
export interface Played {
  notes: number;
  readonly keys: Set<number>;
  velocities: Range | null;
}

/** All that merged usage says of an instrument, counted. */
export interface Tally {
  /** Per zone, M(z). */
  readonly zoneDoubts: readonly (readonly DoubtSet[])[];
  /** Per start of the program, the same for this one way. */
  readonly startDoubts: readonly (readonly DoubtSet[])[];
  /** Per zone: notes of the plain reading. */
  readonly plainNotes: readonly Notes[];
  /** Per zone: notes that reach it only through open doubts. */
  readonly doubtfulNotes: readonly Notes[];
  readonly articulations: readonly Played[];
}

/**
 * Counts usage into zones.
 *
 * @param files in reel order
 * @param excluded doubts settled as plain: notes that need one of them are not counted
 */
export const tallyUsage = (
  instrument: Instrument,
  files: readonly FileUsage[],
  excluded: DoubtSet,
): Tally => {
  const zoneDoubts: (readonly DoubtSet[])[] = instrument.zones.map(() => []);
  const startDoubts: (readonly DoubtSet[])[] = instrument.program.starts.map(() => []);
  const plainNotes = instrument.zones.map(noNotes);
  const doubtfulNotes = instrument.zones.map(noNotes);
  const articulations = instrument.articulations.map((): Played => ({
    notes: 0,
    keys: new Set(),
    velocities: null,
  }));
  const reel = new Map(files.map((file, i) => [file, i]));
  for (const { file, class: one, starts } of reachedClasses(instrument, files)) {
    const reachedZones = new Map<number, readonly DoubtSet[]>();
    const played = new Set<number>();
    for (const { index, start, doubts } of starts) {
      startDoubts[index] = union(startDoubts[index]!, doubts);
      reachedZones.set(start.zone, union(reachedZones.get(start.zone) ?? [], doubts));
      if (doubts[0] === plain && one.event === 'note-on') played.add(start.articulation);
    }
    for (const [zone, doubts] of reachedZones) {
      zoneDoubts[zone] = union(zoneDoubts[zone]!, doubts);
      const notes = doubts[0] === plain ? plainNotes[zone]! : doubtfulNotes[zone]!;
      if (holdsWithout(doubts, excluded)) count(notes, reel.get(file)!, file, one);
    }
    for (const articulation of played) play(articulations[articulation]!, one);
  }
  if (files.some(isUnknown(instrument.id))) {
    taint(zoneDoubts);
    taint(startDoubts);
  }
  return { zoneDoubts, startDoubts, plainNotes, doubtfulNotes, articulations };
};

/** True for a file that may play anything of the instrument, because part of it could not be read. */
const isUnknown =
  (instrument: string) =>
  ({ state, copies }: FileUsage): boolean =>
    state === 'unreadable' || copies.some((copy) => copy.damaged && copy.instrument === instrument);

/** Damage: what an unreadable stretch played is unknown, so every zone may be needed. */
const taint = (doubts: (readonly DoubtSet[])[]): void => {
  doubts.forEach((sets, i) => {
    doubts[i] = union(sets, damage);
  });
};

const noNotes = (): Notes => ({ count: 0, byCue: new Map(), proofs: [] });

const count = (notes: Notes, reel: number, file: FileUsage, one: UsageClass): void => {
  notes.count += one.count;
  notes.byCue.set(file.cue, (notes.byCue.get(file.cue) ?? 0) + one.count);
  const last = notes.proofs.at(-1);
  if (notes.proofs.length === witnessLimit && last!.reel < reel) return;
  const { key, velocity } = one;
  const proofs = one.witnesses.map((place) => ({ reel, file, place, key, velocity }));
  notes.proofs = [...notes.proofs, ...proofs].sort(compareProofs).slice(0, witnessLimit);
};

const compareProofs = (a: Proof, b: Proof): number =>
  a.reel - b.reel || comparePlaces(a.place, b.place);

const play = (played: Played, { key, velocity, count: notes }: UsageClass): void => {
  played.notes += notes;
  played.keys.add(key);
  const [lo, hi] = played.velocities ?? [velocity, velocity];
  played.velocities = [Math.min(lo, velocity), Math.max(hi, velocity)];
};
