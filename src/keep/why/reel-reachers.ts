import type { Instrument } from '../../instruments/instrument.ts';
import type { Program } from '../../instruments/program.ts';
import { programFor } from '../../playback/play-cue.ts';
import type { CopyUsage } from '../../playback/zone-usage.ts';
import type { Range } from '../../terms/range.ts';
import type { PlanCopy } from '../plan.ts';
import { Reacher } from '../reacher.ts';

/** Holds no key. */
const nowhere: Range = [Infinity, -Infinity];

/** What finds the starts of a few zones, whatever articulation is played. */
export class ReelReachers {
  readonly #instrument: Instrument;
  readonly #zones: ReadonlySet<number>;
  readonly #choosing: readonly CopyUsage[];
  readonly #own = new Map<string | null, Reacher>();
  readonly #chosen = new Map<number, Reacher>();
  readonly #whole = new Map<string | null, Reacher>();

  /**
   * @param copies usage of the instrument's copies
   * @param planned what each copy chose in the whole reel, should `copies` be only some of it
   * @param zones the only ones that are found, as indices
   */
  constructor(
    instrument: Instrument,
    copies: readonly CopyUsage[],
    planned: readonly PlanCopy[],
    zones: ReadonlySet<number>,
  ) {
    this.#instrument = instrument;
    this.#zones = zones;
    const isSignal = (signal: number): boolean => signal < instrument.program.signals.length;
    this.#choosing = [...copies, ...copies.flatMap((copy) => inWholeReel(copy, planned, isSignal))];
  }

  /** As a copy plays it. */
  playing({ articulation }: CopyUsage): Reacher {
    let found = this.#own.get(articulation);
    if (found === undefined) {
      const program = programFor(this.#instrument, articulation);
      found = this.#reacher(program, (copy) => copy.articulation === articulation);
      this.#own.set(articulation, found);
    }
    return found;
  }

  /** As if one articulation had been chosen. @param articulation index into the instrument's */
  choosing(articulation: number): Reacher {
    let found = this.#chosen.get(articulation);
    if (found === undefined) {
      const { name } = this.#instrument.articulations[articulation]!;
      found = this.#reacher(programFor(this.#instrument, name), () => true);
      this.#chosen.set(articulation, found);
    }
    return found;
  }

  /** True for a switch that plays nothing: no room is given around it. */
  onlySwitches({ articulation }: CopyUsage, key: number): boolean {
    let found = this.#whole.get(articulation);
    if (found === undefined) {
      found = new Reacher(programFor(this.#instrument, articulation));
      this.#whole.set(articulation, found);
    }
    return found.onlySwitches(key);
  }

  #reacher(program: Program, learns: (copy: CopyUsage) => boolean): Reacher {
    const reacher = new Reacher(this.#onlyZones(program));
    for (const copy of this.#choosing) if (learns(copy)) reacher.learn(copy);
    return reacher;
  }

  /** The same program, in which nothing but the zones asked for can start without a search. */
  #onlyZones(program: Program): Program {
    return {
      ...program,
      starts: program.starts.map((start) =>
        this.#zones.has(start.zone) ? start : { ...start, keys: nowhere },
      ),
    };
  }
}

/** A copy as the plan has it, in the words of usage. */
const inWholeReel = (
  copy: CopyUsage,
  planned: readonly PlanCopy[],
  isSignal: (signal: number) => boolean,
): readonly CopyUsage[] => {
  const own = planned.find(({ name }) => name === copy.copy);
  if (own === undefined) return [];
  // A keep file may have been edited by hand.
  const known = own.chosen.filter(({ signal }) => isSignal(signal));
  const chosen = known.map(({ signal, channel, values }) => ({
    signal,
    channel: channel === null ? -1 : channel - 1,
    values,
  }));
  return [{ ...copy, chosen }];
};
