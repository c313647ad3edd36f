import { rm } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planCue, type CuePlan } from './cue-plan.ts';
import { all, banks, cueCount, realCues } from './material.ts';
import { poisonDropped, poisonOne } from './poison.ts';
import { fluidSynthVersion, timidityVersion } from './render.ts';
import { Renders, type Synth } from './renders.ts';
import { onlyPart, proveSeed, Seeded } from './seeded.ts';
import { reasonUnheard } from './unheard.ts';

/**
 * Sound: what a plan drops is never played. Every dropped sample is overwritten with noise at full
 * scale, and two synthesisers of different origin must still write the same file. Minimal: with
 * one sample that the plan calls played overwritten, the file must change.
 */
const fluidsynth: Synth = { name: 'fluidsynth' };
const timidity: Synth = { name: 'timidity' };
const cues = await realCues();
const seeded = new Seeded(proveSeed);
const chosen = seeded.choose(cues, onlyPart ? 4 : cues.length).sort();
const large = seeded.choose(chosen, onlyPart ? 1 : 6).sort();
const trials = onlyPart ? 8 : 60;

const ready = all('fluidsynth', 'timidity', 'cues', 'timgm');
const count = { fluidsynth: 0, timidity: 0, large: 0, heardBy: { fluidsynth: 0, timidity: 0 } };
const exceptions: string[] = [];
const plans = new Map<string, Promise<CuePlan>>();

const planOf = (cue: string, bank: string): Promise<CuePlan> => {
  const key = `${bank} ${cue}`;
  const known = plans.get(key) ?? planCue(cue, bank);
  plans.set(key, known);
  return known;
};

let renders: Renders;
beforeAll(async () => {
  renders = await Renders.open();
});
afterAll(async () => {
  await renders.close();
  console.log(
    [
      (await fluidSynthVersion()) ?? 'no FluidSynth',
      (await timidityVersion()) ?? 'no TiMidity++',
      `poisoned banks that sound the same: FluidSynth ${String(count.fluidsynth)}, ` +
        `TiMidity++ ${String(count.timidity)} of ${String(chosen.length)} cues (seed ${String(proveSeed)}); ` +
        `large bank ${String(count.large)} of ${String(large.length)}`,
      `poisoned kept samples heard: FluidSynth ${String(count.heardBy.fluidsynth)}, ` +
        `else TiMidity++ ${String(count.heardBy.timidity)} of ${String(trials)}; ` +
        `exceptions: ${exceptions.join(', ') || 'none'}`,
    ].join('\n'),
  );
});

const poisonedBank = async (cue: string, bank: string): Promise<string> => {
  const { kept, dropped } = await planOf(cue, bank);
  const out = renders.file('sf2');
  const words = await poisonDropped(bank, out, dropped, kept, proveSeed);
  expect(words, 'nothing was dropped, so nothing is proved').toBeGreaterThan(0);
  return out;
};

describe.runIf(ready)('dropped samples are never played', () => {
  it('has the cues that it speaks of', () => {
    expect(cues).toHaveLength(cueCount);
  });

  it.each(chosen.map((cue) => [path.basename(cue), cue]))('%s', async (_, cue) => {
    const poisoned = await poisonedBank(cue, banks.timgm);
    const inFluid = await renders.same(fluidsynth, banks.timgm, poisoned, cue);
    const inTimidity = await renders.same(timidity, banks.timgm, poisoned, cue);
    await rm(poisoned);
    count.fluidsynth += Number(inFluid);
    count.timidity += Number(inTimidity);
    expect({ inFluid, inTimidity }).toEqual({ inFluid: true, inTimidity: true });
  });
});

describe.runIf(ready && all('fluidr3'))('nor are those of a large bank', () => {
  it.each(large.map((cue) => [path.basename(cue), cue]))('%s', async (_, cue) => {
    const poisoned = await poisonedBank(cue, banks.fluidr3);
    const same = await renders.same(fluidsynth, banks.fluidr3, poisoned, cue);
    await rm(poisoned);
    count.large += Number(same);
    expect(same).toBe(true);
  });
});

/** Which synthesiser hears that one kept sample is noise; else the checked reason, or null. */
const heard = async (cue: string, seed: number): Promise<string | null> => {
  const { kept, played } = await planOf(cue, banks.timgm);
  const [one] = new Seeded(seed).choose(played, 1);
  if (one === undefined) return null;
  const bank = renders.file('sf2');
  try {
    const words = await poisonOne(banks.timgm, bank, one.sample, kept, seed);
    for (const synth of [fluidsynth, timidity]) {
      if (!(await renders.same(synth, banks.timgm, bank, cue))) {
        count.heardBy[synth.name] += 1;
        return synth.name;
      }
    }
    const reason = await reasonUnheard(renders, cue, banks.timgm, { bank, words, played: one });
    if (reason !== null)
      exceptions.push(`${path.basename(cue)} sample ${String(one.sample)} ${reason}`);
    return reason;
  } finally {
    await rm(bank, { force: true });
  }
};

describe.runIf(ready)('played samples are heard', () => {
  it.each(Array.from({ length: trials }, (_, at) => [at + 1]))('trial %i', async (trial) => {
    const cue = chosen[new Seeded(proveSeed * 1000 + trial).below(chosen.length)]!;
    const result = await heard(cue, proveSeed * 1000 + trial);
    expect(result, `${path.basename(cue)}: a sample kept as played is not played`).not.toBeNull();
  });

  it('has hardly any exceptions', () => {
    expect(exceptions.length, exceptions.join(', ')).toBeLessThanOrEqual(Math.ceil(trials * 0.02));
  });
});
