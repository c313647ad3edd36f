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
import { unlinked } from './unlinked.ts';

/**
 * A trimmed bank sounds as the whole one does: two synthesisers of different origin write the same
 * file, bit for bit and to the same length, for every real cue; with the bank trimmed for that cue alone,
 * and with the one trimmed for the whole reel. FluidSynth plays the banks as they are. TiMidity++ plays
 * FluidR3_GM and what was trimmed from it without stereo links (`unlinked.ts` says why); FluidSynth shows
 * that this is the same bank.
 */
type BankName = keyof typeof banks;

/** Banks of which TiMidity++ gets a copy without stereo links. */
const playedUnlinked: readonly BankName[] = ['fluidr3'];

/**
 * Cues for which TiMidity++ is not asked: it plays the nearest zone for a note that no zone is for, and in
 * a smaller bank that is another one. Their plan must say that they have such notes.
 */
const notAsked: Readonly<Record<BankName, readonly string[]>> = {
  timgm: [],
  fluidr3: ['keep_on_rolling', 'the_fast_route'],
};

const synths: readonly Synth[] = [{ name: 'fluidsynth' }, { name: 'timidity' }];
const cues = await realCues();
const seeded = new Seeded(proveSeed);
const chosen: Readonly<Record<BankName, readonly string[]>> = {
  timgm: seeded.choose(cues, onlyPart ? 4 : cues.length).sort(),
  fluidr3: seeded.choose(cues, onlyPart ? 1 : cues.length).sort(),
};

/** Cues that show that a bank without stereo links is the same bank. */
const unlinkedHeard: readonly string[] = ['coconut_run2.mid', 'harp_harmony.mid'];

/** A cue of a minute, for what one cue can show. */
const short = cues.find((cue) => cue.endsWith('coconut_run2.mid')) ?? '';

const count = { compared: 0, equal: 0 };
const counts = new Map<string, { compared: number; equal: number }>();
const reels = new Map<BankName, Promise<TrimmedInstrument>>();
const sizes: string[] = [];
const unasked = new Map<string, number>();
const wholes = new Map<BankName, Promise<string>>();

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
      ...[...unasked].map(([reason, renders]) => `${reason}: ${String(renders)} times`),
      ...sizes,
    ].join('\n'),
  );
});

/** Where the bank for the whole reel goes; its keep file is beside it. */
const reelFolder = (bank: BankName): string => path.join(renders.folder, `${bank}-reel`);

const trimmedReel = (bank: BankName): Promise<TrimmedInstrument> => {
  const known = reels.get(bank) ?? trimBankFor(cues, banks[bank], reelFolder(bank));
  reels.set(bank, known);
  return known;
};

const writeUnlinked = async (bank: string): Promise<string> => {
  const file = renders.file('sf2');
  await writeFile(file, unlinked(await readFile(bank)));
  return file;
};

const unlinkedWhole = (bank: BankName): Promise<string> => {
  const known = wholes.get(bank) ?? writeUnlinked(banks[bank]);
  wholes.set(bank, known);
  return known;
};

/** Whether a changed bank sounds as the whole one, each as this synthesiser gets it. */
const isSame = async (
  synth: Synth,
  bank: BankName,
  changed: string,
  cue: string,
): Promise<boolean> => {
  if (synth.name !== 'timidity' || !playedUnlinked.includes(bank)) {
    return renders.same(synth, banks[bank], changed, cue);
  }
  const copy = await writeUnlinked(changed);
  try {
    return await renders.same(synth, await unlinkedWhole(bank), copy, cue);
  } finally {
    await rm(copy);
  }
};

const isAsked = (synth: Synth, bank: BankName, cue: string): boolean =>
  synth.name !== 'timidity' || !notAsked[bank].includes(path.basename(cue, '.mid'));

/** Which synthesisers write the same file, of those that are asked; counted under a name. */
const sameInAll = async (
  what: string,
  bank: BankName,
  trimmed: string,
  cue: string,
): Promise<Readonly<Record<string, boolean>>> => {
  const result: Record<string, boolean> = {};
  for (const synth of synths) {
    if (!isAsked(synth, bank, cue)) {
      const reason =
        `${path.basename(banks[bank])}, ${what}, ${path.basename(cue)}: ${synth.name} not asked, ` +
        `as notes have no zone`;
      unasked.set(reason, (unasked.get(reason) ?? 0) + 1);
      continue;
    }
    const same = await isSame(synth, bank, trimmed, cue);
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

/** What {@link sameInAll} has to find. */
const equalFor = (bank: BankName, cue: string): Readonly<Record<string, boolean>> =>
  Object.fromEntries(
    synths.filter((synth) => isAsked(synth, bank, cue)).map(({ name }) => [name, true]),
  );

/** Cues of a keep file with notes that no zone is for, by their file names. */
const cuesWithoutZone = async (keep: string): Promise<readonly string[]> => {
  const { findings } = JSON.parse(await readFile(keep, 'utf8')) as {
    readonly findings: readonly {
      readonly code: string;
      readonly args: { readonly cues?: readonly string[] };
    }[];
  };
  return findings
    .filter(({ code }) => code === 'notes-without-zone')
    .flatMap(({ args }) => args.cues ?? [])
    .map((cue) => path.basename(cue));
};

const named = (some: readonly string[]) => some.map((cue) => [path.basename(cue), cue] as const);

describe.each(Object.keys(banks) as readonly BankName[])('%s', (bank) => {
  const ready = all('fluidsynth', 'timidity', 'cues', bank);

  describe.runIf(ready)('trimmed for one cue', () => {
    it.each(named(chosen[bank]))('%s', async (_, cue) => {
      const out = renders.file('cue');
      const { file, before, after } = await trimBankFor([cue], banks[bank], out);
      expect(after, 'nothing was trimmed, so nothing is proved').toBeLessThan(before / 2);
      if (notAsked[bank].includes(path.basename(cue, '.mid'))) {
        expect(await cuesWithoutZone(`${out}.json`)).toEqual([path.basename(cue, '.mid')]);
      }
      expect(await sameInAll('for one cue', bank, file, cue)).toEqual(equalFor(bank, cue));
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
      expect(await sameInAll('for the reel', bank, file, cue)).toEqual(equalFor(bank, cue));
    });

    it('has notes without a zone in each cue for which TiMidity++ is not asked', async () => {
      await trimmedReel(bank);
      expect(await cuesWithoutZone(`${reelFolder(bank)}.json`)).toEqual(
        expect.arrayContaining([...notAsked[bank]]),
      );
    });

    it('loads without a warning that the whole one does not bring', async () => {
      const { file } = await trimmedReel(bank);
      const cue = chosen[bank][0]!;
      const before = await loadWarnings(banks[bank], cue, renders.file('wav'));
      const after = await loadWarnings(file, cue, renders.file('wav'));
      expect(after.filter((line) => !before.includes(line))).toEqual([]);
    });
  });

  describe.runIf(ready && playedUnlinked.includes(bank))('without stereo links', () => {
    it.each(named(cues.filter((cue) => unlinkedHeard.includes(path.basename(cue)))))(
      '%s is the same in FluidSynth',
      async (_, cue) => {
        const whole = await unlinkedWhole(bank);
        expect(await renders.same({ name: 'fluidsynth' }, banks[bank], whole, cue)).toBe(true);
      },
    );
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
        expect(await isSame(synth, bank, bad, cue), synth.name).toBe(false);
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
