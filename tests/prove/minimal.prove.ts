import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cueEvents } from './cue-reach.ts';
import { all, banks, realCues } from './material.ts';
import { fluidSynthVersion, timidityVersion } from './render.ts';
import { Renders } from './renders.ts';
import { onlyPart, proveSeed, Seeded } from './seeded.ts';
import {
  heardBy,
  isPlayed,
  silencedTrial,
  trialBank,
  unexplained,
  type Trial,
  type TrialBank,
} from './silenced-trial.ts';
import { keepset, trimBankFor } from './trimmed-set.ts';

/**
 * Nothing more could go: each sample of a trimmed bank is silenced in turn, and a cue must sound another
 * way. Where none does, the naive player of the tests must say why the sample stays.
 */
const ready = all('fluidsynth', 'timidity');
const seeded = new Seeded(proveSeed);
/** Samples tried on a real cue, and in each bank of the demo where only a part is asked for. */
const realTrials = onlyPart ? 12 : 60;
const demoTrials = onlyPart ? 12 : Infinity;
/** Share of the samples that are played by the letter that must be heard. */
const share = 0.95;

interface Count {
  readonly results: Map<Trial, number>;
  played: number;
  playedHeard: number;
  readonly exceptions: string[];
}
const counts = new Map<string, Count>();

let renders: Renders;
let demo: string;
beforeAll(async () => {
  renders = await Renders.open();
  demo = renders.file('demo');
  if (ready) await keepset('demo', '--out', demo);
});
afterAll(async () => {
  await renders.close();
  const lines = [...counts].flatMap(([name, { results, played, playedHeard, exceptions }]) => {
    const trials = [...results.values()].reduce((sum, one) => sum + one, 0);
    const heard = heardBy.reduce((sum, one) => sum + (results.get(one) ?? 0), 0);
    const by = [...results].map(([result, one]) => `${result} ${String(one)}`).join(', ');
    return [
      `${name}: ${String(heard)} of ${String(trials)} silenced samples heard (${by}); of those ` +
        `played by the letter ${String(playedHeard)} of ${String(played)}`,
      ...exceptions.map((one) => `  ${one}`),
    ];
  });
  const versions = [await fluidSynthVersion(), await timidityVersion()];
  console.log(
    [
      ...versions.map((version) => version ?? 'a synthesiser is not here'),
      `silenced in turn (seed ${String(proveSeed)}):`,
      ...lines,
    ].join('\n'),
  );
});

/** Trims a bank for a reel and plays that on it with the naive player. */
const trimmedFor = async (cues: readonly string[], bank: string): Promise<TrialBank> => {
  const { file } = await trimBankFor(cues, bank, renders.file('trimmed'));
  const reel = await Promise.all(cues.map(async (cue) => ({ cue, events: await cueEvents(cue) })));
  return trialBank(file, await readFile(file), reel);
};

/** Silences samples in turn; what is neither heard nor explained, by name. */
const trials = async (
  name: string,
  bank: TrialBank,
  samples: readonly number[],
): Promise<readonly string[]> => {
  const count: Count = { results: new Map(), played: 0, playedHeard: 0, exceptions: [] };
  counts.set(name, count);
  const failed: string[] = [];
  for (const sample of samples) {
    const result = await silencedTrial(renders, bank, sample);
    const isHeard = heardBy.includes(result);
    count.results.set(result, (count.results.get(result) ?? 0) + 1);
    if (isPlayed(bank, sample)) {
      count.played += 1;
      count.playedHeard += Number(isHeard);
    }
    const named = `${String(sample)}:${bank.bank.samples[sample]?.name ?? ''} ${result}`;
    if (!isHeard) count.exceptions.push(named);
    if (unexplained.includes(result)) failed.push(named);
  }
  expect(count.played).toBeGreaterThan(0);
  expect(count.playedHeard / count.played).toBeGreaterThanOrEqual(share);
  return failed;
};

const indices = ({ bank }: TrialBank): readonly number[] => bank.samples.map((_, index) => index);

const demoCues = async (): Promise<readonly string[]> => {
  const folder = path.join(demo, 'cues');
  return (await readdir(folder)).sort().map((name) => path.join(folder, name));
};
const demoBank = (): string => path.join(demo, 'instruments', 'harbour.sf2');

describe.runIf(ready)('the demo', () => {
  it('trimmed for the reel', { timeout: 0 }, async () => {
    const bank = await trimmedFor(await demoCues(), demoBank());
    const samples = seeded.choose(indices(bank), demoTrials);
    expect(await trials('demo, the reel', bank, samples)).toEqual([]);
  });

  it('trimmed for each cue', { timeout: 0 }, async () => {
    const cues = await demoCues();
    expect(cues.length).toBeGreaterThan(8);
    for (const cue of onlyPart ? seeded.choose(cues, 1) : cues) {
      const bank = await trimmedFor([cue], demoBank());
      const samples = seeded.choose(indices(bank), demoTrials);
      expect(await trials(`demo, ${path.basename(cue)}`, bank, samples)).toEqual([]);
    }
  });
});

/** A real cue that keeps as many samples as are to be tried. */
const richCue = async (): Promise<{ readonly cue: string; readonly bank: TrialBank }> => {
  const cues = await realCues();
  for (const cue of seeded.choose(cues, cues.length)) {
    const bank = await trimmedFor([cue], banks.fluidr3);
    if (bank.bank.samples.length >= realTrials) return { cue, bank };
  }
  throw new Error(`no cue keeps ${String(realTrials)} samples`);
};

describe.runIf(ready && all('cues', 'fluidr3'))('a real cue on a large bank', () => {
  it(`${String(realTrials)} samples`, { timeout: 0 }, async () => {
    const { cue, bank } = await richCue();
    const samples = seeded.choose(indices(bank), realTrials);
    expect(await trials(`FluidR3_GM.sf2, ${path.basename(cue)}`, bank, samples)).toEqual([]);
  });
});

describe.runIf(ready)('the trials can fail', () => {
  it('in the whole bank, a sample that nothing plays stays for no reason', async () => {
    const [cue] = await demoCues();
    const events = await cueEvents(cue!);
    const whole = trialBank(demoBank(), await readFile(demoBank()), [{ cue: cue!, events }]);
    const reached = whole.cues[0]!.reached;
    const [unneeded] = seeded.choose(
      indices(whole).filter((sample) => !reached.has(sample)),
      1,
    );
    expect(await silencedTrial(renders, whole, unneeded!)).toBe('unneeded');
    const [played] = seeded.choose(
      indices(whole).filter((sample) => isPlayed(whole, sample)),
      1,
    );
    expect(await silencedTrial(renders, whole, played!)).toBe('fluidsynth');
  });
});
