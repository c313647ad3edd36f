import fc from 'fast-check';
import { expect } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import { readBank } from '../demo/read-bank.ts';
import { renderWithJsSynth, type StereoRender } from '../prove/js-synth.ts';
import { randomReel } from './random-cue.ts';
import { randomModel } from './random-model.ts';
import type { Runs } from './same-plans.ts';
import { soundFontStyle } from './styles.ts';
import { writeSoundFont } from './write-soundfont.ts';

/** How many samples were noise in all runs together: of what the plans dropped, and of what is played. */
export interface Poisoned {
  readonly dropped: number;
  readonly played: number;
}

const models = randomModel({ articulations: false, fades: false, releases: false });

/** Notes, controllers and pedals of one cue, over a second or two. */
const reels = randomReel(
  { switches: false, controllers: true, modes: false, resets: false, moment: 80 },
  1,
);

/**
 * Random SoundFonts rendered by FluidSynth, which knows nothing of plans: with noise in place of all
 * that the plan drops the sound is the same to the last bit; with noise in place of any one sample
 * that is played it is not.
 */
export const droppedIsNeverHeard = async ({ seed, numRuns }: Runs): Promise<Poisoned> => {
  const count = { dropped: 0, played: 0 };
  await fc.assert(
    fc.asyncProperty(models, reels, soundFontStyle, async (model, reel, style) => {
      const { bytes } = writeSoundFont(model, style);
      const files = new MemoryFiles({ ...reel, 'one.sf2': bytes });
      const made = await plan({ cues: ['cues'], instrument: 'one.sf2', files });
      const { kept } = made.instruments[0]!;
      const samplesOf = (zones: typeof kept): ReadonlySet<number> =>
        new Set(zones.flatMap(({ samples }) => samples.map(headerOf)));
      const all = samplesOf(kept);
      const dropped = model.samples.map((_, i) => i).filter((i) => !all.has(i));
      const played = samplesOf(kept.filter(({ reasons }) => reasons.includes('played')));
      const cue = Object.values(reel)[0]!;
      const render = (noise: readonly number[]): Promise<StereoRender> =>
        renderWithJsSynth(poisoned(bytes, noise), cue);

      const clean = await render([]);
      if (dropped.length > 0) expect(isSame(await render(dropped), clean)).toBe(true);
      for (const one of played) {
        expect(isSame(await render([one]), clean), `sample ${String(one)} is played`).toBe(false);
      }
      count.dropped += dropped.length;
      count.played += played.size;
    }),
    { seed, numRuns },
  );
  return count;
};

/** `3:tone-3`: the index of its header. */
const headerOf = (name: string): number => Number(name.slice(0, name.indexOf(':')));

/** A copy of a bank with noise in place of some samples; the points after each stay. */
const poisoned = (bytes: Uint8Array, samples: readonly number[]): Uint8Array => {
  const copy = Uint8Array.from(bytes);
  const bank = readBank(bytes);
  for (const index of samples) {
    const { start, end } = bank.samples[index]!;
    for (let at = bank.pointsAt + 2 * start; at < bank.pointsAt + 2 * end; at++) {
      copy[at] = (Math.imul(at + 7 * index + 1, 0x9e3779b1) >>> 13) & 0xff;
    }
  }
  return copy;
};

const isSame = (a: StereoRender, b: StereoRender): boolean =>
  [0, 1].every((side) => {
    const [one, other] = [a[side]!, b[side]!];
    return one.length === other.length && one.every((value, i) => Object.is(value, other[i]));
  });
