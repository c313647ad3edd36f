import type { Instrument } from '../../instruments/instrument.ts';
import { programFor } from '../../playback/play-cue.ts';
import type { CopyUsage } from '../../playback/zone-usage.ts';
import { opensUnset } from '../copy-choices.ts';
import { Reacher } from '../reacher.ts';

/** What is known of a copy when only some cues of the reel are: what it chooses in them. */
export interface KnownChoices {
  /** The same for the same knowledge. */
  readonly text: string;
  readonly reacher: Reacher;
}

/** Readers of one instrument's usage, one for each state of knowledge. */
export class ChoiceKnowledge {
  readonly #instrument: Instrument;
  readonly #waits = new Map<CopyUsage, boolean>();
  readonly #known = new Map<string, KnownChoices>();
  /** What is found out of a list of usages, as long as someone holds it: it is asked for copy by copy. */
  readonly #ofReel = new WeakMap<readonly CopyUsage[], Map<string, KnownChoices>>();

  constructor(instrument: Instrument) {
    this.#instrument = instrument;
  }

  /**
   * How the usage of a copy reads.
   *
   * @param reel all usage of the instrument that is known
   */
  of(copy: CopyUsage, reel: readonly CopyUsage[]): KnownChoices {
    const { articulation } = copy;
    // Most copies choose before they play: then nothing depends on the rest of the reel.
    if (!this.#waitsForReel(copy)) return this.#read(JSON.stringify([articulation]), copy, []);
    let ofReel = this.#ofReel.get(reel);
    if (ofReel === undefined) this.#ofReel.set(reel, (ofReel = new Map<string, KnownChoices>()));
    const name = JSON.stringify([articulation, copy.copy]);
    let found = ofReel.get(name);
    if (found === undefined) {
      const own = reel.filter((one) => one.copy === copy.copy && one.articulation === articulation);
      const text = JSON.stringify([articulation, copy.copy, ...choicesIn(own)]);
      ofReel.set(name, (found = this.#read(text, copy, own)));
    }
    return found;
  }

  #read(text: string, { articulation }: CopyUsage, own: readonly CopyUsage[]): KnownChoices {
    let found = this.#known.get(text);
    if (found === undefined) {
      const reacher = new Reacher(programFor(this.#instrument, articulation));
      for (const one of own) reacher.learn(one);
      this.#known.set(text, (found = { text, reacher }));
    }
    return found;
  }

  #waitsForReel(copy: CopyUsage): boolean {
    let waits = this.#waits.get(copy);
    if (waits === undefined) this.#waits.set(copy, (waits = opensUnset(copy)));
    return waits;
  }
}

const choicesIn = (copies: readonly CopyUsage[]): readonly string[] => {
  const all = copies.flatMap(({ chosen }) =>
    chosen.flatMap(({ signal, channel, values }) =>
      values.map((value) => `${String(signal)} ${String(channel)} ${String(value)}`),
    ),
  );
  return [...new Set(all)].sort();
};
