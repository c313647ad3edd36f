import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseMidi, writeMidi } from 'midi-file';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBank, type OracleBank } from '../oracle/soundfont-bank.ts';
import { checkCue, planPlainly } from './check-cue.ts';
import { fluidLog, type LoggedNote } from './fluid-log.ts';
import { loggedZones, onlyIn, type LoggedZones } from './logged-zones.ts';
import { all, banks, cueCount, realCues } from './material.ts';
import { fluidSynthVersion } from './render.ts';
import { onlyPart, proveSeed, Seeded } from './seeded.ts';

/**
 * Thirty of the real cues are planned and the one left out is checked, each in turn: what it misses is
 * what FluidSynth plays for it and for none of the others. What FluidSynth plays is read from its log
 * by code in tests alone.
 */
const cues = await realCues();
const chosen = onlyPart ? new Seeded(proveSeed).choose(cues, 8).sort() : cues;
const named = (some: readonly string[]) => some.map((cue) => [path.basename(cue), cue] as const);

const ready = all('fluidsynth', 'cues', 'timgm');
const bankFile = banks.timgm;
const logs = new Map<string, Promise<LoggedZones>>();
const count = { checked: 0, missing: 0, zones: 0 };
let folder: string;
let bank: OracleBank;

const readLog = async (cue: string): Promise<LoggedZones> =>
  loggedZones(bank, await fluidLog(bankFile, cue, path.join(folder, path.basename(cue))));

/** What FluidSynth plays for a cue; each is played once. */
const logOf = (cue: string): Promise<LoggedZones> => {
  const known = logs.get(cue) ?? readLog(cue);
  logs.set(cue, known);
  return known;
};

/** The logs one after another: a synthesiser for each cue at once would be too many. */
const logsOf = async (some: readonly string[]): Promise<readonly LoggedZones[]> => {
  const found: LoggedZones[] = [];
  for (const cue of some) found.push(await logOf(cue));
  return found;
};

/** Plans all real cues but some, then checks a cue. */
const checkWithout = async (cue: string, leftOut: readonly string[]) => {
  const keep = path.join(folder, `${path.basename(cue)}.json`);
  await planPlainly(
    cues.filter((one) => !leftOut.includes(one)),
    bankFile,
    keep,
  );
  return checkCue(cue, bankFile, keep);
};

const missesBesides = async (cue: string, leftOut: readonly string[]): Promise<number[]> =>
  onlyIn(await logOf(cue), await logsOf(cues.filter((one) => !leftOut.includes(one))));

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'keepset-leave-one-out-'));
  if (ready) bank = readBank(await readFile(bankFile));
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
  const known = await Promise.all([...logs.values()].map((log) => log.catch(() => null)));
  const voices = known.reduce((sum, log) => sum + (log?.voices ?? 0), 0);
  const notes = known.reduce((sum, log) => sum + (log?.notes ?? 0), 0);
  console.log(
    `${(await fluidSynthVersion()) ?? 'no FluidSynth'}\nleave one out: ${String(count.checked)} of ` +
      `${String(chosen.length)} cues checked as the log says, ${String(count.missing)} of them ` +
      `with misses, ${String(count.zones)} zones missing in all; ${String(known.length)} logs, ` +
      `${String(notes)} notes, ${String(voices)} voices`,
  );
});

describe.runIf(ready)('the log says which zones sound', () => {
  it('has the cues and the bank that it speaks of', () => {
    expect(cues).toHaveLength(cueCount);
    // A stereo partner stays with what is played (SoundFont 2.04, section 7.10, sample type 1: mono),
    // and would not be missed. Here is none.
    expect(bank.samples.length).toBeGreaterThan(0);
    expect(bank.samples.filter(({ type }) => type !== 1)).toEqual([]);
  });

  it.each(named(cues))('%s', async (_, cue) => {
    const { tracks } = parseMidi(await readFile(cue));
    const noteOns = tracks.flat().filter((event) => event.type === 'noteOn' && event.velocity > 0);
    const log = await logOf(cue);
    expect(log.voices).toBeGreaterThan(0);
    expect(log.counted).toBe(noteOns.length);
  });
});

describe.runIf(ready)('what the log is held against', () => {
  // A note of TimGM6mb 1.3 that one zone answers, as FluidSynth 2.3.1 logs it.
  const note: LoggedNote = {
    ...{ number: 0, preset: { bank: 0, program: 5 } },
    ...{ channel: 0, key: 60, velocity: 100, voices: 1 },
  };

  it('is as many zones as voices', () => {
    expect(loggedZones(bank, [note]).zones.size).toBe(1);
    expect(() => loggedZones(bank, [{ ...note, voices: 2 }])).toThrow('1 zones for the voices');
    const preset = { bank: 0, program: 128 };
    expect(() => loggedZones(bank, [{ ...note, preset }])).toThrow('without a preset');
    expect(() => loggedZones(bank, [{ ...note, preset: null }])).toThrow('without a preset');
  });

  it('is the preset that stands in for one that the bank lacks', async () => {
    const cue = path.join(folder, 'stand-in.mid');
    const key = { deltaTime: 0, noteNumber: 60, velocity: 100 };
    const bytes = writeMidi({
      header: { format: 0, numTracks: 1, ticksPerBeat: 96 },
      tracks: [
        [
          { deltaTime: 0, type: 'controller', channel: 0, controllerType: 0, value: 7 },
          { deltaTime: 0, type: 'programChange', channel: 0, programNumber: 5 },
          { ...key, type: 'noteOn', channel: 0 },
          // Struck twice without a release: two notes, not one of two voices.
          { ...key, type: 'noteOn', channel: 0 },
          { deltaTime: 0, type: 'programChange', channel: 9, programNumber: 5 },
          { ...key, type: 'noteOn', channel: 9 },
          { deltaTime: 96, type: 'endOfTrack' },
        ],
      ],
    });
    await writeFile(cue, Uint8Array.from(bytes));
    const log = await fluidLog(bankFile, cue, path.join(folder, 'stand-in'));
    expect(log).toEqual([
      note,
      { ...note, number: 1 },
      { ...note, number: 2, channel: 9, preset: { bank: 128, program: 0 } },
    ]);
  });
});

describe.runIf(ready)('a cue misses what the log of no other has', () => {
  it.each(named(chosen))('%s', async (_, cue) => {
    const expected = await missesBesides(cue, [cue]);
    const checked = await checkWithout(cue, [cue]);
    expect(checked.zones).toEqual(expected);
    expect(checked.otherwise).toBe(0);
    const missing = expected.length > 0;
    expect([checked.code, checked.verdict]).toEqual(missing ? [1, 'missing'] : [0, 'proved']);
    count.checked += 1;
    count.missing += missing ? 1 : 0;
    count.zones += expected.length;
  });
});

describe.runIf(ready)('the comparison can fail', () => {
  it('has something to miss in most cues', async () => {
    const misses = await Promise.all(cues.map((cue) => missesBesides(cue, [cue])));
    expect(misses.filter((zones) => zones.length > 0).length).toBeGreaterThan(cueCount / 2);
  });

  it('sees one more zone that was dropped', async () => {
    const cue = chosen[0]!;
    const without = await missesBesides(cue, [cue]);
    const sizes = await Promise.all(
      cues
        .filter((other) => other !== cue)
        .map(async (other) => ({ other, zones: await missesBesides(cue, [cue, other]) })),
    );
    // The cue whose absence costs this one the fewest zones more.
    const [next] = sizes
      .filter(({ zones }) => zones.length > without.length)
      .sort((a, b) => a.zones.length - b.zones.length);
    if (next === undefined) throw new Error(`no other cue shares a zone with ${cue} alone`);
    const { zones } = await checkWithout(cue, [cue, next.other]);
    expect(zones).toEqual(next.zones);
    expect(zones).not.toEqual(without);
  });

  it('finds nothing where the cue was planned too', async () => {
    expect(await checkWithout(chosen[0]!, [])).toEqual({
      ...{ code: 0, verdict: 'proved', open: [] },
      ...{ zones: [], otherwise: 0 },
    });
  });
});
