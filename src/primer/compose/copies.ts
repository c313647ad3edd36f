import type { Instrument } from '../../instruments/instrument.ts';
import { programFor } from '../../playback/play-cue.ts';
import { keptZones } from '../../keep/check/kept-zones.ts';
import { settledAsPlain } from '../../keep/decision.ts';
import type { PlanInstrument } from '../../keep/plan.ts';
import type { Score } from '../../midi/score.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import { allot, attempt, type Candidate } from '../copies/allot.ts';
import { PrimerTracks } from '../copies/primer-tracks-of.ts';
import { stayingZones, type CopyZone } from '../hearing/compare.ts';
import type { CopyToPrime } from '../lanes.ts';
import { primerTracks } from '../score/primer-tracks.ts';
import type { ComposeInput } from './input.ts';

/** A copy of an instrument that cues drive, and the first cue that does; null: the base does. */
interface Known extends Candidate {
  readonly from: FileUsage | null;
}

/** The copies that a primer plays, and who primes what. */
export class Copies {
  readonly tracks: PrimerTracks;
  readonly #input: ComposeInput;
  readonly #known = new Map<string, readonly Known[]>();
  readonly #staying = new Map<string, readonly CopyZone[]>();
  /** By instrument, copies that are known by the place of their track in another cue. */
  readonly #nameless = new Map<string, Set<string>>();
  /** By instrument. */
  readonly #tried = new Map<string, Set<string>>();

  constructor(input: ComposeInput) {
    this.#input = input;
    this.tracks = new PrimerTracks(primerTracks(input.base.score));
    for (const one of input.plan.instruments) {
      const instrument = input.instruments.get(one.id)!;
      const isElsewhere = (input.machine ?? one.machine) !== one.machine;
      const staying = isElsewhere ? [] : stayingZones(instrument, one);
      const zones = staying.flatMap(({ copy, kept }) =>
        [...kept.keys()].filter((zone) => kept[zone] === 1).map((zone) => ({ copy, zone })),
      );
      this.#staying.set(one.id, zones);
      this.#known.set(one.id, knownCopies(input, one.id));
      this.#tried.set(one.id, new Set());
    }
  }

  get base(): Score {
    return this.#input.base.score;
  }

  /** What stays of an instrument with its samples, by copy where copies have their own. */
  staying(instrument: string): readonly CopyZone[] {
    return this.#staying.get(instrument)!;
  }

  /** True where no cue drives a copy that could start the zone, or none that the primer has a track for. */
  hasNone(instrument: string, { copy }: CopyZone): boolean {
    const known = this.#known.get(instrument)!;
    const nameless = this.#nameless.get(instrument);
    return !known.some(
      (one) => (copy === null || one.copy === copy) && nameless?.has(one.copy) !== true,
    );
  }

  /**
   * True where routes tie every copy that could start the zone to other articulations: no note can ask
   * for it there.
   */
  isTied(instrument: string, { copy, zone }: CopyZone): boolean {
    const known = this.#known.get(instrument)!.filter((one) => copy === null || one.copy === copy);
    const own = this.#input.instruments.get(instrument)!;
    return known.every(
      ({ articulation }) =>
        articulation !== null &&
        !programFor(own, articulation).starts.some(
          (start) => start.zone === zone && start.keys[0] <= start.keys[1],
        ),
    );
  }

  /** True where the player starts the zone by itself: notes ask for something else. */
  isPicked(instrument: string, { zone }: CopyZone): boolean {
    return pickedZones(this.#input.instruments.get(instrument)!).has(zone);
  }

  /** From then on another copy tries, if there is one. */
  failed(instrument: string, copy: string, zone: number): void {
    this.#tried.get(instrument)!.add(attempt(copy, zone));
  }

  /** The copies with what each is to start: all of the base, and those of other cues that have anything. */
  async allotted(): Promise<readonly CopyToPrime[]> {
    const found: CopyToPrime[] = [];
    for (const planned of this.#input.plan.instruments) {
      const instrument = this.#input.instruments.get(planned.id)!;
      const known = this.#known.get(planned.id)!;
      const zones = this.#staying.get(planned.id)!;
      const picked = this.#input.excerpts === 'never' ? none : pickedZones(instrument);
      const own = zones.filter(({ zone }) => !picked.has(zone));
      const { byCopy } = allot(instrument, own, known, this.#tried.get(planned.id));
      const { loaded } = keptZones(instrument, planned);
      for (const { copy, from } of known) {
        const wanted = byCopy.get(copy) ?? [];
        if (from !== null && wanted.length === 0) continue;
        const { score, routed, file } =
          from === null ? this.#input.base : await this.#input.open(from);
        const own = routed.copies.find(
          (one) => one.instrument === planned.id && one.name === copy && !one.printed,
        );
        if (own === undefined) continue;
        if (from !== null && isNameless(own, score)) {
          const all = this.#nameless.get(planned.id) ?? new Set();
          this.#nameless.set(planned.id, all.add(copy));
          continue;
        }
        found.push({
          instrument,
          machine: planned.machine,
          copy: from === null ? own : this.tracks.moved(own, score, file.cue),
          wanted,
          kept: loaded(copy),
          excluded: settledAsPlain(planned.settle),
          slack: this.#input.plan.settings.slack,
        });
      }
    }
    return found;
  }
}

/** No track of the primer would go to it: it has no name to be found by. */
const isNameless = ({ name, sources }: CopyToPrime['copy'], { tracks }: Score): boolean =>
  name.startsWith('track ') &&
  sources.every(({ track }) => (tracks[track]!.name ?? '').trim() === '');

const none: ReadonlySet<number> = new Set();

/** Zones of articulations that the player picks by itself, and of no other. */
const pickedZones = ({ articulations }: Instrument): ReadonlySet<number> => {
  if (!articulations.some(({ picked }) => picked === true)) return none;
  const zonesOf = (isPicked: boolean): readonly number[] =>
    articulations
      .filter(({ picked }) => (picked === true) === isPicked)
      .flatMap(({ layers }) => layers.flatMap(({ zones }) => zones));
  const others = new Set(zonesOf(false));
  return new Set(zonesOf(true).filter((zone) => !others.has(zone)));
};

const knownCopies = (
  { base, files }: Pick<ComposeInput, 'base' | 'files'>,
  instrument: PlanInstrument['id'],
): readonly Known[] => {
  const found = new Map<string, Known>();
  for (const { name, articulation, printed, instrument: own } of base.routed.copies) {
    if (own === instrument && !printed) {
      found.set(name, { copy: name, articulation, from: null });
    }
  }
  for (const file of files) {
    for (const { instrument: own, copy, articulation, printed } of file.copies) {
      if (own !== instrument || printed || found.has(copy)) continue;
      found.set(copy, { copy, articulation, from: file });
    }
  }
  return [...found.values()];
};
