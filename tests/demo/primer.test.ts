/**
 * The primer of the demo's bank, with FluidSynth (in WebAssembly, through js-synthesizer) as judge: what
 * was dropped is not heard in it, and what stays as played is.
 */
import { mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { demo } from '../../src/jobs/demo.ts';
import { plan } from '../../src/jobs/plan.ts';
import { primer, type MadePrimer } from '../../src/jobs/primer.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { renderWithJsSynth, type StereoRender } from '../prove/js-synth.ts';
import { Seeded } from '../prove/seeded.ts';
import { readBank } from './read-bank.ts';

const patience = 300_000;
const tried = 12;

let folder = '';
let bytes = new Uint8Array();
let planned: Plan;
let made: MadePrimer;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keepset-primer-demo-'));
  await demo(folder);
  const instrument = join(folder, 'instruments', 'harbour.sf2');
  const names = (await readdir(join(folder, 'cues'))).sort();
  planned = await plan({ cues: names.map((name) => join(folder, 'cues', name)), instrument });
  const keep = join(folder, 'keep.json');
  await writeFile(keep, JSON.stringify(planned));
  bytes = new Uint8Array(await readFile(instrument));
  made = await primer({ keep, instrument });
}, patience);

afterAll(() => rm(folder, { recursive: true, force: true }));

const indexOf = (name: string): number => Number(name.slice(0, name.indexOf(':')));

/** A copy of the bank with noise in place of some samples; the 46 points after each stay. */
const poisoned = (samples: Iterable<number>): Uint8Array => {
  const bank = readBank(bytes);
  const copy = Uint8Array.from(bytes);
  for (const index of samples) {
    const { start, end } = bank.samples[index]!;
    for (let at = bank.pointsAt + 2 * start; at < bank.pointsAt + 2 * end; at++) {
      copy[at] = (Math.imul(at + 7 * index, 0x9e3779b1) >>> 13) & 0xff;
    }
  }
  return copy;
};

const isSame = (a: StereoRender, b: StereoRender): boolean =>
  [0, 1].every((side) => {
    const [one, other] = [a[side]!, b[side]!];
    return one.length === other.length && one.every((value, i) => Object.is(value, other[i]));
  });

test('it loads what stays and nothing else', { timeout: patience }, async () => {
  const [{ kept }] = planned.instruments as [Plan['instruments'][number]];
  const stays = new Set(kept.flatMap(({ samples }) => samples.map(indexOf)));
  const dropped = readBank(bytes).samples.flatMap((_, i) => (stays.has(i) ? [] : [i]));
  expect(dropped.length).toBeGreaterThan(0);
  expect(made.primer.notPrimed).toEqual([]);
  const clean = await renderWithJsSynth(bytes, made.bytes);
  expect(isSame(await renderWithJsSynth(poisoned(dropped), made.bytes), clean)).toBe(true);

  const played = kept.filter(({ reasons }) => reasons.includes('played'));
  const samples = [...new Set(played.flatMap((zone) => zone.samples.map(indexOf)))];
  const chosen = new Seeded(8).choose(samples, tried);
  expect(chosen).toHaveLength(tried);
  const unheard: number[] = [];
  for (const sample of chosen) {
    if (isSame(await renderWithJsSynth(poisoned([sample]), made.bytes), clean)) {
      unheard.push(sample);
    }
  }
  expect(unheard).toEqual([]);
});
