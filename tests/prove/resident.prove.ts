import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeSoundFont } from '../../src/demo/soundfont-writer.ts';
import { computed } from '../../src/memory/calibration.ts';
import { memoryOf } from '../../src/memory/loaded-memory.ts';
import { refit, refitted, type CopiesRead } from '../../src/memory/refit.ts';
import { defaultPlayer } from '../../src/template/player.ts';
import { readBank } from '../instruments/soundfont/reading.ts';
import { all, banks, realCues } from './material.ts';
import { fluidSynthVersion } from './render.ts';
import { Renders } from './renders.ts';
import { residentSize } from './resident-size.ts';
import { keepset, trimKeep } from './trimmed-set.ts';

/**
 * Estimates against memory that a real process takes: presets of a real bank, each trimmed into a bank of
 * its own and loaded in FluidSynth. What a bank takes is the process less one with next to nothing loaded.
 * Files of the program and its libraries are left out of the process (`RssAnon`): how many of their pages
 * lie in memory is the system's choice, and differs by some 200 KiB from run to run.
 */
const presets = [
  { preset: '0:36', what: 'bass' },
  { preset: '0:40', what: 'violin' },
  { preset: '0:48', what: 'strings' },
  { preset: '0:1', what: 'piano' },
  // The preset with most samples in this bank.
  { preset: '128:16', what: 'drums' },
] as const;

const ready = all('fluidsynth', 'fluidr3', 'cues');

const mib = 2 ** 20;

interface Loaded extends CopiesRead {
  readonly name: string;
  /** The same of all that is in memory, with files of the program. */
  readonly shownAll: number;
}

/** One preset with one zone: a sample of a few points. */
const emptyBank = (): Uint8Array =>
  writeSoundFont({
    name: 'Empty',
    engine: 'EMU8000',
    comment: '',
    samples: [
      {
        name: 'Click',
        rate: 44_100,
        key: 60,
        cents: 0,
        points: Int16Array.from({ length: 48 }, (_, n) => n),
        loop: [8, 40],
        side: 'mono',
        partner: 0,
      },
    ],
    instruments: [{ name: 'Click', zones: [{ generators: [], target: 0 }] }],
    presets: [{ name: 'Click', bank: 0, program: 0, zones: [{ generators: [], target: 0 }] }],
  });

/** A preset as a bank of its own, written by the command. */
const trimmed = async (preset: string, cue: string, folder: string): Promise<string> => {
  const id = `${path.basename(banks.fluidr3, '.sf2')}#${preset}`;
  const out = path.join(folder, preset.replace(':', '-'));
  const from = ['--instrument', `${banks.fluidr3}#${preset}`, '--pin', id];
  await keepset('plan', cue, ...from, '-o', `${out}.json`);
  const [written] = await trimKeep(`${out}.json`, out);
  return written!.file;
};

/** What the plan of a user without a template would say of all of it. */
const estimateOf = async (file: string): Promise<number> => {
  const instrument = await readBank(await readFile(file));
  const zones = new Uint8Array(instrument.zones.length).fill(1);
  const copies = [{ zones, count: 1 }];
  return memoryOf({ instrument, player: defaultPlayer, calibration: computed, copies }).bytes;
};

/**
 * A line is held to what lies between the banks that it was fitted to: that is three of the ten choices.
 * Beyond them it is drawn further than it was measured, and a cost for each zone, which a line by bytes
 * can not tell from one for each byte, shows most in the smallest bank.
 */
const between = 0.03;
const beyond = 0.05;

/** All ways to choose three of five. */
const choices = presets.flatMap((_, a) =>
  presets.flatMap((__, b) => presets.flatMap((___, c) => (a < b && b < c ? [[a, b, c]] : []))),
);

const table: string[] = [];
const inMib = (bytes: number): string => (bytes / mib).toFixed(3).padStart(8);
const percent = (error: number): string => `${(100 * error).toFixed(2)} %`;
const offBy = (estimate: number, shown: number): number => Math.abs(estimate - shown) / shown;

describe.runIf(ready)('memory that FluidSynth takes for a bank', () => {
  let folder: Renders | null = null;
  let read: readonly Loaded[] = [];

  beforeAll(async () => {
    folder = await Renders.open();
    const [cue] = await realCues();
    const nothing = folder.file('sf2');
    await writeFile(nothing, emptyBank());
    const base = await residentSize(nothing);
    const list: Loaded[] = [];
    for (const { preset, what } of presets) {
      const file = await trimmed(preset, cue!, folder.folder);
      const size = await residentSize(file);
      list.push({
        name: `${what} ${preset}`,
        copies: 1,
        computed: await estimateOf(file),
        shown: size.own - base.own,
        shownAll: size.all - base.all,
      });
    }
    read = list;
    table.push(
      (await fluidSynthVersion()) ?? '',
      `MiB; with nothing loaded: ${inMib(base.own).trim()}, with files ${inMib(base.all).trim()}`,
      `${''.padEnd(16)}estimate   taken  with files    off`,
      ...read.map(
        (one) =>
          `${one.name.padEnd(16)}${inMib(one.computed)}${inMib(one.shown)}${inMib(one.shownAll)}` +
          `    ${percent(offBy(one.computed, one.shown))}`,
      ),
    );
  });

  afterAll(async () => {
    await folder?.close();
    console.log(table.join('\n'));
  });

  it('is loaded: banks of very different sizes', () => {
    const sizes = read.map(({ shown }) => shown);
    expect(Math.min(...sizes)).toBeGreaterThan(mib);
    expect(Math.max(...sizes)).toBeGreaterThan(10 * mib);
  });

  it('is estimated within 10 % or 2 MiB, whichever is more, before anything was read', () => {
    const off = read.filter(
      ({ computed: estimate, shown, shownAll }) =>
        Math.abs(estimate - shown) > Math.max(2 * mib, shown / 10) ||
        Math.abs(estimate - shownAll) > Math.max(2 * mib, shownAll / 10),
    );
    expect(off).toEqual([]);
  });

  it('is estimated within 3 % for two banks by a player fitted to three, where they lie between those, and within 5 % beyond', () => {
    const off = choices.flatMap((chosen) => {
      const fit = refit(
        defaultPlayer,
        chosen.map((n) => read[n]!),
      );
      const others = read.filter((_, n) => !chosen.includes(n));
      const worst = Math.max(...others.map((one) => offBy(refitted(fit, one), one.shown)));
      const names = chosen.map((n) => presets[n]!.what).join(', ');
      table.push(
        `fitted to ${names}: per copy ${inMib(fit.fixed).trim()}, factor ${String(fit.factor)}; ` +
          `the other two within ${percent(worst)}`,
      );
      const isSpanned = chosen.includes(0) && chosen.includes(presets.length - 1);
      return worst > (isSpanned ? between : beyond) ? [{ names, worst }] : [];
    });
    expect(choices).toHaveLength(10);
    expect(off).toEqual([]);
  });

  it('could fail: a bank that is not trimmed is far from the estimate of one preset', async () => {
    const whole = await residentSize(banks.fluidr3);
    expect(whole.own).toBeGreaterThan(10 * read[4]!.computed);
  });
});
