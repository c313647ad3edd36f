import { plain, union, type DoubtSet } from '../../terms/doubt.ts';
import type { CopyUsage, FileUsage, UsageClass } from '../../playback/zone-usage.ts';
import { holdsWithout, type DoubtSets } from '../doubt-sets.ts';
import type { ReachedClass } from '../reach.ts';
import type { ReachedStart } from '../reacher.ts';
import type { KeptZones } from './kept-zones.ts';

/** A class of starts that asks for what is missing. */
export interface Asking {
  readonly file: FileUsage;
  readonly class: UsageClass;
  /** By the plain reading, not only through a doubt. */
  readonly isPlain: boolean;
}

/** A zone that was dropped and is asked for, with all that asks. */
export interface FoundMiss {
  /** Index into the instrument's zones. */
  readonly zone: number;
  /** Null where all copies load the same. */
  readonly copy: string | null;
  /** It need only stop others, without its samples. */
  readonly silent: boolean;
  /** It is loaded, and the preset by which it is asked for was dropped. */
  readonly isPreset: boolean;
  /** Minimal; none holds through a doubt that was settled as plain. */
  readonly doubts: DoubtSets;
  /** Starts of the program by which it is asked for. */
  readonly starts: ReadonlySet<number>;
  readonly asking: readonly Asking[];
}

/** What is missing of one instrument. */
export interface FoundMisses {
  /** By zone, then by copy in the order of its first appearance. */
  readonly misses: readonly FoundMiss[];
  /** Notes that ask for anything missing, each once: by the plain reading. */
  readonly notes: number;
  /** Further notes that do so only through a doubt. */
  readonly doubtfulNotes: number;
  /** Copies that ask for anything at all, in the order of their first appearance. */
  readonly asking: readonly string[];
}

interface OpenMiss extends FoundMiss {
  silent: boolean;
  doubts: DoubtSets;
  readonly starts: Set<number>;
  readonly asking: Asking[];
}

/**
 * Holds everything that is asked for against what a keep file leaves loaded.
 *
 * @param reached all usage of the instrument by the checked cues
 * @param excluded doubts that the plan settled as plain
 */
export const findMisses = (
  reached: Iterable<ReachedClass>,
  keep: KeptZones,
  excluded: DoubtSet,
): FoundMisses => {
  const found = new Map<string, OpenMiss>();
  const copies = new Set<string>();
  const plainly = new AskingNotes();
  const doubtfully = new AskingNotes();
  for (const { file, copy, class: one, starts, silent } of reached) {
    const loaded = keep.loaded(copy.copy);
    const kept = keep.kept(copy.copy);
    const isOpen = ({ doubts }: ReachedStart): boolean => holdsWithout(doubts, excluded);
    if (!copies.has(copy.copy) && (starts.some(isOpen) || silent.some(isOpen))) {
      copies.add(copy.copy);
    }
    /** What the class asks for, and whether plainly. */
    const touched = new Map<OpenMiss, boolean>();
    const ask = (zone: number, index: number, doubts: DoubtSets, isSilent: boolean): void => {
      const isPreset = (isSilent ? kept : loaded)[zone] === 1;
      const open = doubts.filter((set) => (set & excluded) === plain);
      const name = keep.byCopy ? copy.copy : null;
      const key = JSON.stringify([zone, name]);
      let miss = found.get(key);
      if (miss === undefined) {
        miss = {
          zone,
          copy: name,
          silent: isSilent,
          isPreset,
          doubts: [],
          starts: new Set(),
          asking: [],
        };
        found.set(key, miss);
      }
      // What has to sound needs its samples, whatever else asks for it.
      if (miss.silent && !isSilent) miss.silent = false;
      miss.doubts = union(miss.doubts, open);
      miss.starts.add(index);
      touched.set(miss, touched.get(miss) === true || open[0] === plain);
    };
    for (const { index, start, doubts } of starts) {
      const isThere = loaded[start.zone] === 1 && keep.staysOpen(index);
      if (isThere || !holdsWithout(doubts, excluded)) continue;
      ask(start.zone, index, doubts, false);
    }
    for (const { index, start, doubts } of silent) {
      const isThere = kept[start.zone] === 1 && keep.staysOpen(index);
      if (isThere || !holdsWithout(doubts, excluded)) continue;
      ask(start.zone, index, doubts, true);
    }
    if (touched.size === 0) continue;
    const asked = [...touched.values()].includes(true) ? plainly : doubtfully;
    asked.add(copy, one);
    for (const [miss, isPlain] of touched) miss.asking.push({ file, class: one, isPlain });
  }
  const asking = [...copies];
  const place = (copy: string | null): number => (copy === null ? 0 : asking.indexOf(copy));
  return {
    misses: [...found.values()].sort((a, b) => a.zone - b.zone || place(a.copy) - place(b.copy)),
    notes: plainly.count,
    doubtfulNotes: doubtfully.count,
    asking,
  };
};

/** Notes of which a strike, a release or several of both ask: each counts once. */
class AskingNotes {
  readonly #events = new Map<CopyUsage, Map<string, Map<string, number>>>();

  add(copy: CopyUsage, one: UsageClass): void {
    if (!countsAsNote(one)) return;
    const { channel, key, velocity, event, count } = one;
    const notes = this.#events.get(copy) ?? new Map<string, Map<string, number>>();
    this.#events.set(copy, notes);
    const note = `${String(channel)} ${String(key)} ${String(velocity)}`;
    const events = notes.get(note) ?? new Map<string, number>();
    notes.set(note, events);
    events.set(event, (events.get(event) ?? 0) + count);
  }

  /** Of alike notes as many as the event that asks most often. */
  get count(): number {
    let sum = 0;
    for (const notes of this.#events.values()) {
      for (const events of notes.values()) sum += Math.max(...events.values());
    }
    return sum;
  }
}

/** Each note is cut by all that follow it: that is no number of notes. */
export const countsAsNote = ({ event }: UsageClass): boolean => event !== 'cut';
