import { readdir, rm } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { all, banks, realCues } from './material.ts';
import { poisonDropped, poisonOne } from './poison.ts';
import { primeBank, type PrimedBank } from './primed-cue.ts';
import { fluidSynthVersion } from './render.ts';
import { Renders } from './renders.ts';
import { onlyPart, proveSeed, Seeded } from './seeded.ts';
import { keepset } from './trimmed-set.ts';

/**
 * The primer loads the keep set and nothing else, and FluidSynth is the judge: with every sample that
 * was dropped replaced by noise it sounds the same, and with any one sample that is kept as played
 * replaced it does not.
 */
const fluidsynth = { name: 'fluidsynth' } as const;
const ready = all('fluidsynth');
const seeded = new Seeded(proveSeed);
const demoTrials = onlyPart ? 12 : Infinity;
const realTrials = onlyPart ? 8 : 60;
const lines: string[] = [];

let renders: Renders;
let demo: string;
beforeAll(async () => {
  renders = await Renders.open();
  demo = renders.file('demo');
  if (ready) await keepset('demo', '--out', demo);
});
afterAll(async () => {
  await renders.close();
  console.log([(await fluidSynthVersion()) ?? 'no FluidSynth', ...lines].join('\n'));
});

/** Whether noise in place of some samples changes nothing, and how many words became noise. */
const droppedUnheard = async (primed: PrimedBank): Promise<boolean> => {
  const poisoned = renders.file('sf2');
  const words = await poisonDropped(primed.bank, poisoned, primed.dropped, primed.kept, proveSeed);
  expect(words, 'nothing was dropped, so nothing is proved').toBeGreaterThan(0);
  const same = await renders.same(fluidsynth, primed.bank, poisoned, primed.file);
  await rm(poisoned);
  return same;
};

/** What became of samples that were replaced by noise one by one; `silent`: nobody can hear why. */
interface Trials {
  readonly heard: number;
  /** Kept samples cover all their points, so that nothing could be replaced. */
  readonly covered: number;
  readonly silent: readonly number[];
}

const eachHeard = async (primed: PrimedBank, samples: readonly number[]): Promise<Trials> => {
  let heard = 0;
  let covered = 0;
  const silent: number[] = [];
  for (const sample of samples) {
    const poisoned = renders.file('sf2');
    const words = await poisonOne(primed.bank, poisoned, sample, primed.kept, proveSeed);
    if (words === 0) covered += 1;
    else if (!(await renders.same(fluidsynth, primed.bank, poisoned, primed.file))) heard += 1;
    else {
      // Below the last bit of 16, twenty times louder it is heard.
      const loud = { ...fluidsynth, gain: 10 };
      if (await renders.same(loud, primed.bank, poisoned, primed.file)) silent.push(sample);
      else heard += 1;
    }
    await rm(poisoned, { force: true });
  }
  return { heard, covered, silent };
};

const prove = async (name: string, primed: PrimedBank, trials: number): Promise<void> => {
  expect(primed.playedNotPrimed, 'played zones that the primer leaves out').toEqual([]);
  expect(await droppedUnheard(primed)).toBe(true);
  const samples = seeded.choose(primed.primed, trials);
  expect(samples.length).toBeGreaterThan(0);
  const { heard, covered, silent } = await eachHeard(primed, samples);
  lines.push(
    `${name}: ${String(primed.zones)} zones, ${String(primed.excerpts)} excerpts, ` +
      `${String(Math.round(primed.seconds))} s of ${String(Math.round(primed.reelSeconds))} s; ` +
      `${String(primed.dropped.length)} dropped samples as noise: the same; one by one ` +
      `${String(heard)} of ${String(samples.length)} heard, ${String(covered)} covered by others`,
  );
  expect(silent).toEqual([]);
  expect(heard).toBeGreaterThan(covered);
};

describe.runIf(ready)('the primer of the demo', () => {
  it('loads what its bank keeps, and nothing else', { timeout: 0 }, async () => {
    const folder = path.join(demo, 'cues');
    const cues = (await readdir(folder)).sort().map((name) => path.join(folder, name));
    const bank = path.join(demo, 'instruments', 'harbour.sf2');
    await prove('demo', await primeBank(cues, bank, renders.file('demo')), demoTrials);
  });
});

describe.runIf(ready && all('cues', 'timgm'))('the primer of real cues on a real bank', () => {
  it('loads what it keeps, and nothing else', { timeout: 0 }, async () => {
    const cues = await realCues();
    const reel = seeded.choose(cues, onlyPart ? 2 : cues.length);
    const primed = await primeBank(reel, banks.timgm, renders.file('timgm'));
    await prove(`TimGM6mb.sf2, ${String(reel.length)} cues`, primed, realTrials);
  });
});

describe.runIf(ready && !onlyPart && all('cues', 'fluidr3'))('on a large bank', () => {
  it('loads what it keeps, and nothing else', { timeout: 0 }, async () => {
    const reel = seeded.choose(await realCues(), 4);
    const primed = await primeBank(reel, banks.fluidr3, renders.file('fluidr3'));
    await prove(`FluidR3_GM.sf2, ${String(reel.length)} cues`, primed, 24);
  });
});
