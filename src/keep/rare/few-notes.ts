import type { StartEvent } from '../../instruments/program.ts';
import { comparePlaces } from '../../playback/class-table.ts';
import type { FileUsage, UsageClass } from '../../playback/zone-usage.ts';
import type { Witness } from '../plan.ts';
import type { Proof } from '../tally.ts';
import { witnessOf } from '../witness.ts';

/** How many places are named. */
const witnessLimit = 3;

/** Notes that reach one unit in one way. */
interface OfEvent {
  count: number;
  readonly cues: Map<string, number>;
  /** By place and key, so that a note that several classes tell of counts once. */
  readonly proofs: Map<string, Proof>;
}

/** What is said of notes that are few. */
export interface FewNotes {
  readonly notes: number;
  readonly cues: Readonly<Record<string, number>>;
  /** The first three, in reel order. */
  readonly witnesses: readonly Witness[];
}

/**
 * Counts the notes that reach something, until there are too many to matter. A note that strikes and
 * is let go counts once: of the events that start something the most frequent is taken.
 */
export class FewNotesCount {
  readonly #limit: number;
  #byEvent: Map<StartEvent, OfEvent> | null = new Map<StartEvent, OfEvent>();

  /** @param limit this many are too many */
  constructor(limit: number) {
    this.#limit = limit;
  }

  add(reel: number, file: FileUsage, { event, channel, key, velocity, ...one }: UsageClass): void {
    if (this.#byEvent === null) return;
    let own = this.#byEvent.get(event);
    if (own === undefined) {
      this.#byEvent.set(event, (own = { count: 0, cues: new Map(), proofs: new Map() }));
    }
    // Notes whose places were not kept count one by one: rather one too many.
    let more = one.count - one.witnesses.length;
    const heard = event === 'change' ? { key: null, velocity: null } : { key, velocity };
    for (const place of one.witnesses) {
      if (own.count + more >= this.#limit) break;
      const text = [reel, ...place, channel, key].join(' ');
      if (own.proofs.has(text)) continue;
      own.proofs.set(text, { reel, file, place, ...heard });
      more++;
    }
    own.count += more;
    own.cues.set(file.cue, (own.cues.get(file.cue) ?? 0) + more);
    if (own.count >= this.#limit) this.#byEvent = null;
  }

  /** Null where there are too many. */
  few(): FewNotes | null {
    if (this.#byEvent === null) return null;
    const [first, ...others] = [...this.#byEvent].sort(([a], [b]) => rank(a) - rank(b));
    if (first === undefined) return { notes: 0, cues: {}, witnesses: [] };
    const most = others.reduce(
      (best, each) => (each[1].count > best[1].count ? each : best),
      first,
    );
    const { count, cues, proofs } = most[1];
    return {
      notes: count,
      cues: Object.fromEntries(cues),
      witnesses: [...proofs.values()]
        .sort((a, b) => a.reel - b.reel || comparePlaces(a.place, b.place))
        .slice(0, witnessLimit)
        .map(({ file, place, key, velocity }) => witnessOf(file, place, key, velocity)),
    };
  }
}

/** Where a note is heard first. */
const rank = (event: StartEvent): number => (event === 'note-on' ? 0 : 1);
