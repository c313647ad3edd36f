/**
 * Sound and minimal, on the demo: what the plan drops is never heard, and whatever it keeps as played
 * is. The judge is FluidSynth (in WebAssembly, through js-synthesizer), which knows nothing of plans.
 */
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import { renderWithJsSynth, type StereoRender } from '../prove/js-synth.ts';
import { readBank } from './read-bank.ts';
import { some } from '../runs.ts';

const files = demoFiles();
const memory = new MemoryFiles(Object.fromEntries(files.map(({ path, bytes }) => [path, bytes])));
const bankFile = files.find(({ path }) => path.endsWith('.sf2'))!;
const bank = readBank(bankFile.bytes);
const cues = new Map(
  files.filter(({ path }) => path.startsWith('cues/')).map(({ path, bytes }) => [path, bytes]),
);

const planOf = (paths: readonly string[]) =>
  plan({ cues: paths, instrument: bankFile.path, files: memory });

const indexOf = (name: string): number => Number(name.slice(0, name.indexOf(':')));

/** A copy of the bank with noise in place of some samples; the 46 points after each stay. */
const poisoned = (samples: Iterable<number>): Uint8Array => {
  const copy = Uint8Array.from(bankFile.bytes);
  for (const index of samples) {
    const { start, end } = bank.samples[index]!;
    for (let at = bank.pointsAt + 2 * start; at < bank.pointsAt + 2 * end; at++) {
      copy[at] = (Math.imul(at + 7 * index, 0x9e3779b1) >>> 13) & 0xff;
    }
  }
  return copy;
};

const isSame = (a: StereoRender, b: StereoRender, frames = Infinity): boolean =>
  [0, 1].every((side) => {
    const [one, other] = [a[side]!.subarray(0, frames), b[side]!.subarray(0, frames)];
    return one.length === other.length && one.every((value, i) => Object.is(value, other[i]));
  });

const clean = new Map<string, Promise<StereoRender>>();

const cleanRender = (path: string): Promise<StereoRender> => {
  let render = clean.get(path);
  if (render === undefined) {
    clean.set(path, (render = renderWithJsSynth(bankFile.bytes, cues.get(path)!)));
  }
  return render;
};

describe('dropped samples are never heard', () => {
  test.each([...cues.keys()])('%s', { timeout: 300_000 }, async (path) => {
    const [instrument] = (await planOf([path])).instruments;
    const kept = new Set(instrument!.kept.flatMap(({ samples }) => samples.map(indexOf)));
    const dropped = bank.samples.map((_, index) => index).filter((index) => !kept.has(index));
    expect(dropped.length).toBeGreaterThan(0);
    const render = await renderWithJsSynth(poisoned(dropped), cues.get(path)!);
    expect(isSame(render, await cleanRender(path))).toBe(true);
  });
});

/** Seconds after a note-on within which a sample that it starts must be heard. */
const enough = 0.5;

test(
  'every sample kept as played is heard, where its first note stands',
  { timeout: 0 },
  async () => {
    const { instruments, cues: reel } = await planOf([...cues.keys()]);
    const played = instruments[0]!.kept.filter(({ reasons }) => reasons.includes('played'));
    const first = new Map(
      played.flatMap(({ samples, witnesses }) =>
        samples.map((name) => [indexOf(name), witnesses[0]!] as const),
      ),
    );
    expect(first.size).toBeGreaterThan(200);
    const unheard: number[] = [];
    for (const [sample, { cue, seconds }] of some([...first])) {
      const path = reel.find(({ id }) => id === cue)!.files[0]!.path;
      // The synthesiser cuts all sound with the last piece it renders: both renders end alike.
      const length = { seconds: seconds + enough };
      const [with_, without] = await Promise.all([
        renderWithJsSynth(poisoned([sample]), cues.get(path)!, length),
        cleanUpTo(path, length),
      ]);
      if (isSame(with_, without)) unheard.push(sample);
    }
    expect(unheard).toEqual([]);
  },
);

const partial = new Map<string, Promise<StereoRender>>();

const cleanUpTo = (path: string, length: { readonly seconds: number }): Promise<StereoRender> => {
  const key = `${path} ${length.seconds}`;
  let render = partial.get(key);
  if (render === undefined) {
    partial.set(key, (render = renderWithJsSynth(bankFile.bytes, cues.get(path)!, length)));
  }
  return render;
};
