import { writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startDifferences, unforeseen, type StartDifference } from './compare-starts.ts';
import { planCue } from './cue-plan.ts';
import { plainStarts, unionStarts } from './engine-starts.ts';
import { fluidLog, startsOf, type LoggedNote, type LogSettings } from './fluid-log.ts';
import { all as materials, banks } from './material.ts';
import { fluidSynthVersion } from './render.ts';
import { Renders } from './renders.ts';
import type { Limits } from './run-limited.ts';
import { onlyPart, proveSeed, Seeded } from './seeded.ts';
import { countedPreset, countedSamples, countingBank } from './suite/counting-bank.ts';
import type { SuiteCue } from './suite/events.ts';
import { knownDifferences } from './suite/known-differences.ts';
import { suiteCues } from './suite/suite.ts';

/**
 * What the real cues do not hold, on a bank that shows by the number of voices which preset plays:
 * FluidSynth's log against the engine, note by note, and against what a plan keeps, in every mode of
 * bank select.
 */
const all = suiteCues();
const chosen = onlyPart ? new Seeded(proveSeed).choose(all, 12) : all;
const version = await fluidSynthVersion();
const ready = materials('fluidsynth');

/** Half a minute of sound: more than any cue takes, and where a note never released is cut. */
const limits: Limits = { seconds: 60, fileBytes: 30 * 22_050 * 4 };

/** Other ways to read bank selects and system messages: what doubt `engine` is about. */
const readings: readonly LogSettings[] = [
  { deviceId: 0 },
  { bankSelect: 'gm' },
  { bankSelect: 'xg' },
  { bankSelect: 'mma' },
];

const count = { equal: 0, named: 0, readings: 0 };
const logs = new Map<string, Promise<readonly LoggedNote[]>>();

let folder: Renders;
let bank: string;
beforeAll(async () => {
  folder = await Renders.open();
  bank = folder.file('sf2');
  await writeFile(bank, countingBank());
});
afterAll(async () => {
  await folder.close();
  console.log(
    `${version ?? 'no FluidSynth'}\nsuite: voices of ${String(count.equal)} of ${String(chosen.length)} cues ` +
      `equal the plain reading, ${String(count.named)} are named differences; ` +
      `${String(count.readings)} logs in five readings within what is kept`,
  );
});

const written = async (cue: SuiteCue): Promise<string> => {
  const file = folder.file('mid');
  await writeFile(file, cue.bytes);
  return file;
};

const logOf = async (cue: SuiteCue, settings: LogSettings = {}): Promise<readonly LoggedNote[]> =>
  fluidLog(bank, await written(cue), folder.file('log'), { ...settings, limits });

/** The log under the plain settings, read once. */
const plainLog = (cue: SuiteCue): Promise<readonly LoggedNote[]> => {
  const known = logs.get(cue.name) ?? logOf(cue);
  logs.set(cue.name, known);
  return known;
};

const cases = chosen.map((cue): [string, SuiteCue] => [cue.name, cue]);

describe('the suite', () => {
  it('has names of its own and no stale difference', () => {
    const names = all.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect([...knownDifferences.keys()].filter((name) => !names.includes(name))).toEqual([]);
  });
});

// What was measured with 2.3.1 is only claimed for 2.3.
describe.runIf(ready && version?.includes('version 2.3.') === true)('FluidSynth plays', () => {
  it.each(cases)('%s', async (_, cue) => {
    const notes = await plainLog(cue);
    const plays = notes.map(({ key, velocity, voices }) => countedPreset(key, velocity, voices));
    expect(plays.join(' ')).toBe(cue.plays);
  });
});

const differencesOf = async (
  cue: SuiteCue,
  notes: readonly LoggedNote[],
  path: string,
): Promise<readonly StartDifference[]> => {
  const file = await written(cue);
  const plain = await plainStarts(file, path);
  return startDifferences(startsOf(notes), plain, await unionStarts(file, path));
};

describe.runIf(ready)('the plain reading starts the voices of the log', () => {
  it.each(cases)('%s', async (name, cue) => {
    const differences = await differencesOf(cue, await plainLog(cue), bank);
    expect(unforeseen(differences)).toEqual([]);
    if (knownDifferences.has(name)) {
      expect(differences, 'named as a difference, but equal').not.toEqual([]);
      count.named += 1;
    } else {
      expect(differences).toEqual([]);
      count.equal += 1;
    }
  });
});

// The bank with the more banks and kits of the two real ones; its presets may happen to agree.
describe.runIf(ready && materials('fluidr3'))('and so it does on a real bank', () => {
  it.each(cases)('%s', async (name, cue) => {
    const notes = await fluidLog(banks.fluidr3, await written(cue), folder.file('log'), { limits });
    const differences = await differencesOf(cue, notes, banks.fluidr3);
    expect(unforeseen(differences)).toEqual([]);
    if (!knownDifferences.has(name)) expect(differences).toEqual([]);
  });
});

describe.runIf(ready)('whatever reading plays, is kept', () => {
  it.each(cases)('%s', async (_, cue) => {
    const { kept } = await planCue(await written(cue), bank);
    const logged = await Promise.all([plainLog(cue), ...readings.map((one) => logOf(cue, one))]);
    const lost = logged.flatMap((notes, at) =>
      notes
        .filter(({ key, velocity, voices }) =>
          countedSamples(key, velocity, voices).some((sample) => !kept.includes(sample)),
        )
        .map(({ channel, key, velocity, voices }) => ({
          reading: at === 0 ? 'plain' : JSON.stringify(readings[at - 1]),
          channel,
          key,
          preset: countedPreset(key, velocity, voices),
        })),
    );
    expect(lost).toEqual([]);
    count.readings += logged.length;
  });
});

// The logs above are read in the mode in which every voice starts anew; this is the mode it powers on in.
describe.runIf(ready)('a voice that is carried over plays no other sample', () => {
  const names = ['legato, last key up first', 'legato, one key twice', 'portamento from a key'];
  it.each(all.filter(({ name }) => names.includes(name)).map((cue) => [cue.name, cue] as const))(
    '%s',
    async (_, cue) => {
      const anew = startsOf(await plainLog(cue));
      const carried = startsOf(await logOf(cue, { carryOver: true }));
      const more = [...carried].filter(([start, voices]) => voices > (anew.get(start) ?? 0));
      expect(more).toEqual([]);
      expect([...anew]).not.toEqual([...carried]);
    },
  );
});
