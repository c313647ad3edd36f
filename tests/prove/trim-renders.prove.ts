import { readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cueEvents } from './cue-reach.ts';
import { loadWarnings } from './load-warnings.ts';
import { all, banks, cueCount, realCues } from './material.ts';
import { overTrimmed } from './over-trim.ts';
import { fluidSynthVersion, timidityVersion } from './render.ts';
import { Renders, type Synth } from './renders.ts';
import { onlyPart, proveSeed, Seeded } from './seeded.ts';
import { trimBankFor, type TrimmedInstrument } from './trimmed-set.ts';

/**
 * A trimmed bank sounds as the whole one does: two synthesisers of different origin write the same
 * file, bit for bit and to the same length, for every real cue; with the bank trimmed for that cue alone,
 * and with the one trimmed for the whole reel.
 */
type BankName = keyof typeof banks;

const synths: readonly Synth[] = [{ name: 'fluidsynth' }, { name: 'timidity' }];
const cues = await realCues();
const seeded = new Seeded(proveSeed);
const chosen: Readonly<Record<BankName, readonly string[]>> = {
  timgm: seeded.choose(cues, onlyPart ? 4 : cues.length).sort(),
  fluidr3: seeded.choose(cues, onlyPart ? 1 : cues.length).sort(),
};

/** A cue of a minute, for what one cue can show. */
const short = cues.find((cue) => cue.endsWith('coconut_run2.mid')) ?? '';

const count = { compared: 0, equal: 0 };
const counts = new Map<string, { compared: number; equal: number }>();
const reels = new Map<BankName, Promise<TrimmedInstrument>>();
const sizes: string[] = [];

let renders: Renders;
beforeAll(async () => {
  renders = await Renders.open();
});
afterAll(async () => {
  await renders.close();
  const lines = [...counts].map(
    ([name, { compared, equal }]) => `${name}: ${String(equal)} of ${String(compared)} equal`,
  );
  const versions = [await fluidSynthVersion(), await timidityVersion()];
  console.log(
    [
      ...versions.map((version) => version ?? 'a synthesiser is not here'),
      `trimmed banks, renders compared (seed ${String(proveSeed)}): ` +
        `${String(count.equal)} of ${String(count.compared)} equal`,
      ...lines,
      ...sizes,
    ].join('\n'),
  );
});

const trimmedReel = (bank: BankName): Promise<TrimmedInstrument> => {
  const known = reels.get(bank) ?? trimBankFor(cues, banks[bank], renders.file('reel'));
  reels.set(bank, known);
  return known;
};

/** Which synthesisers write the same file; counted under a name. */
const sameInAll = async (
  what: string,
  bank: BankName,
  trimmed: string,
  cue: string,
): Promise<Readonly<Record<string, boolean>>> => {
  const result: Record<string, boolean> = {};
  for (const synth of synths) {
    const same = await renders.same(synth, banks[bank], trimmed, cue);
    const name = `${path.basename(banks[bank])}, ${what}, ${synth.name}`;
    const one = counts.get(name) ?? { compared: 0, equal: 0 };
    counts.set(name, one);
    for (const each of [one, count]) {
      each.compared += 1;
      each.equal += Number(same);
    }
    result[synth.name] = same;
  }
  return result;
};

const equal = { fluidsynth: true, timidity: true };
const named = (some: readonly string[]) => some.map((cue) => [path.basename(cue), cue] as const);

describe.each(Object.keys(banks) as readonly BankName[])('%s', (bank) => {
  const ready = all('fluidsynth', 'timidity', 'cues', bank);

  describe.runIf(ready)('trimmed for one cue', () => {
    it.each(named(chosen[bank]))('%s', async (_, cue) => {
      const out = renders.file('cue');
      const { file, before, after } = await trimBankFor([cue], banks[bank], out);
      expect(after, 'nothing was trimmed, so nothing is proved').toBeLessThan(before / 2);
      expect(await sameInAll('for one cue', bank, file, cue)).toEqual(equal);
      await rm(out, { recursive: true });
    });
  });

  describe.runIf(ready)('trimmed for the whole reel', () => {
    it('is smaller', async () => {
      expect(cues).toHaveLength(cueCount);
      const { before, after } = await trimmedReel(bank);
      sizes.push(
        `${path.basename(banks[bank])}, for ${String(cues.length)} cues: ` +
          `${String(before)} bytes, trimmed ${String(after)}`,
      );
      expect(after).toBeLessThan(before);
    });

    it.each(named(chosen[bank]))('%s', async (_, cue) => {
      const { file } = await trimmedReel(bank);
      expect(await sameInAll('for the reel', bank, file, cue)).toEqual(equal);
    });

    it('loads without a warning that the whole one does not bring', async () => {
      const { file } = await trimmedReel(bank);
      const cue = chosen[bank][0]!;
      const before = await loadWarnings(banks[bank], cue, renders.file('wav'));
      const after = await loadWarnings(file, cue, renders.file('wav'));
      expect(after.filter((line) => !before.includes(line))).toEqual([]);
    });
  });

  describe.runIf(ready)('the proof can fail', () => {
    it('hears in both synthesisers that a zone too many is gone', async () => {
      const cue = short;
      const { file } = await trimmedReel(bank);
      const choose = (zones: readonly number[]): number => seeded.choose(zones, 1)[0]!;
      const over = overTrimmed(await readFile(file), await cueEvents(cue), choose);
      const bad = renders.file('sf2');
      await writeFile(bad, over);
      for (const synth of synths) {
        expect(await renders.same(synth, banks[bank], bad, cue), synth.name).toBe(false);
      }
    });

    it('sees a warning where the list of presets is cut', async () => {
      const cue = chosen[bank][0]!;
      const { file } = await trimmedReel(bank);
      const bytes = await readFile(file);
      const bad = renders.file('sf2');
      await writeFile(bad, bytes.subarray(0, bytes.length - 46));
      expect(await loadWarnings(bad, cue, renders.file('wav'))).not.toEqual([]);
    });
  });
});
