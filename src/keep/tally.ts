import type { Instrument } from '../instruments/instrument.ts';
import type { StartEvent } from '../instruments/program.ts';
import { comparePlaces } from '../playback/class-table.ts';
import type { CopyUsage, FileUsage, UsageClass, WitnessPlace } from '../playback/zone-usage.ts';
import type { Headroom } from '../template/template.ts';
import { plain, type DoubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import { holdsWithout } from './doubt-sets.ts';
import { addReach, both, never, noReach, taintReach, type Reach } from './open-reach.ts';
import { OtherNotesCount, type OtherNotes } from './other-notes.ts';
import { reachedClasses } from './reach.ts';
import { Silences } from './silence.ts';

/** How many notes prove a kept zone. */
const witnessLimit = 3;

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
  /** By number, how far they go in the copies that play it. */
  readonly controllers: Map<number, Range>;
  /** Usages whose controllers are counted. */
  readonly seen: Set<CopyUsage>;
}

/** A loaded instance of the instrument over the whole reel. */
export interface CopyTally {
  readonly name: string;
  notes: number;
  /** Some of what it hears could not be read: it may have notes that nobody knows of. */
  damaged: boolean;
  /** What it reaches; null where all copies are counted as one. */
  readonly reach: Reach | null;
}

/** All that merged usage says of an instrument, counted. */
export interface Tally {
  readonly reach: Reach;
  /** In order of their first appearance in the reel. */
  readonly copies: readonly CopyTally[];
  /** Per zone: notes of the plain reading; null: none. */
  readonly plainNotes: readonly (Notes | null)[];
  /** Per zone: notes that reach it only through open doubts; null: none, as above. */
  readonly doubtfulNotes: readonly (Notes | null)[];
  readonly articulations: readonly Played[];
  /** Notes that make no sound. */
  readonly silences: Silences;
  /** Notes that no articulation counts. */
  readonly otherNotes: OtherNotes;
}

export interface TallyOptions {
  /** Doubts settled as plain: notes that need one of them are not counted. */
  readonly excluded: DoubtSet;
  readonly headroom: Headroom;
  /** Tell copies apart: each has its own samples in memory. */
  readonly byCopy: boolean;
}

/**
 * Counts usage into zones.
 *
 * @param files in reel order
 */
export const tallyUsage = (
  instrument: Instrument,
  files: readonly FileUsage[],
  { excluded, headroom, byCopy }: TallyOptions,
): Tally => {
  const reach = noReach(instrument);
  const silences = new Silences(excluded);
  const others = new OtherNotesCount(excluded);
  const copies = new Map<string, CopyTally>();
  for (const { copy, instrument: id, notes, damaged } of files.flatMap((file) => file.copies)) {
    if (id !== instrument.id) continue;
    const known = copies.get(copy);
    if (known !== undefined) {
      known.notes += notes;
      known.damaged ||= damaged;
    } else
      copies.set(copy, { name: copy, notes, damaged, reach: byCopy ? noReach(instrument) : null });
  }
  const plainNotes = instrument.zones.map((): Notes | null => null);
  const doubtfulNotes = instrument.zones.map((): Notes | null => null);
  const articulations = instrument.articulations.map((): Played => ({
    notes: 0,
    keys: new Set(),
    velocities: null,
    controllers: new Map(),
    seen: new Set(),
  }));
  const struck = new Set(
    instrument.program.starts.flatMap((start) =>
      start.event === 'note-on' && start.doubt === plain ? [start.articulation] : [],
    ),
  );
  /** A note counts when it starts; where an articulation only follows notes, when it ends. */
  const counts = (articulation: number, event: StartEvent): boolean =>
    struck.has(articulation)
      ? event === 'note-on'
      : event === 'release' || event === 'note-off' || event === 'change';
  const reel = new Map(files.map((file, i) => [file, i]));
  /** What the class at hand reaches of each zone, and which of them it does reach. */
  const ofZone = instrument.zones.map(() => never);
  const reachedZones: number[] = [];
  for (const reached of reachedClasses(instrument, files, headroom)) {
    const { file, copy, class: one, starts } = reached;
    silences.look(reached);
    others.look(reached);
    addReach(reach, reached);
    const own = copies.get(copy.copy)!.reach;
    if (own !== null) addReach(own, reached);
    const played = new Set<number>();
    for (const { start, doubts } of starts) {
      if (ofZone[start.zone] === never) reachedZones.push(start.zone);
      ofZone[start.zone] = both(ofZone[start.zone]!, doubts);
      if (doubts[0] === plain && counts(start.articulation, one.event)) {
        played.add(start.articulation);
      }
    }
    for (const zone of reachedZones) {
      const doubts = ofZone[zone]!;
      ofZone[zone] = never;
      if (!holdsWithout(doubts, excluded)) continue;
      const notes = doubts[0] === plain ? plainNotes : doubtfulNotes;
      count((notes[zone] ??= noNotes()), reel.get(file)!, file, one);
    }
    reachedZones.length = 0;
    for (const articulation of played) play(articulations[articulation]!, one, copy);
  }
  if (files.some(({ tainted }) => tainted.includes(instrument.id))) {
    for (const one of [reach, ...[...copies.values()].map((copy) => copy.reach)]) {
      if (one !== null) taintReach(one);
    }
  }
  return {
    reach,
    copies: [...copies.values()],
    plainNotes,
    doubtfulNotes,
    articulations,
    silences,
    otherNotes: others.counted,
  };
};

const noNotes = (): Notes => ({ count: 0, byCue: new Map(), proofs: [] });

const count = (notes: Notes, reel: number, file: FileUsage, one: UsageClass): void => {
  // Each note is cut by all that follow it: that is no number of notes.
  if (one.event !== 'cut') notes.count += one.count;
  notes.byCue.set(
    file.cue,
    (notes.byCue.get(file.cue) ?? 0) + (one.event === 'cut' ? 0 : one.count),
  );
  const last = notes.proofs.at(-1);
  if (notes.proofs.length === witnessLimit) {
    if (last!.reel < reel) return;
    if (last!.reel === reel && comparePlaces(last!.place, one.witnesses[0]!) <= 0) return;
  }
  const { key, velocity } = one.event === 'change' ? noNote : one;
  const proofs = one.witnesses.map((place) => ({ reel, file, place, key, velocity }));
  notes.proofs = [...notes.proofs, ...proofs].sort(compareProofs).slice(0, witnessLimit);
};

const noNote = { key: null, velocity: null };

const compareProofs = (a: Proof, b: Proof): number =>
  a.reel - b.reel || comparePlaces(a.place, b.place);

const play = (
  played: Played,
  { event, key, velocity, count: notes }: UsageClass,
  copy: CopyUsage,
): void => {
  played.notes += notes;
  if (!played.seen.has(copy)) {
    played.seen.add(copy);
    for (const { number, range } of copy.controllers) {
      const [lo, hi] = played.controllers.get(number) ?? range;
      played.controllers.set(number, [Math.min(lo, range[0]), Math.max(hi, range[1])]);
    }
  }
  if (event === 'change') return;
  played.keys.add(key);
  const [lo, hi] = played.velocities ?? [velocity, velocity];
  played.velocities = [Math.min(lo, velocity), Math.max(hi, velocity)];
};
