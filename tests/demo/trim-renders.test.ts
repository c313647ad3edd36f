/**
 * The demo's bank made smaller: it sounds as the whole one does, value for value, and nothing in it
 * could go. The judges are FluidSynth (in WebAssembly, through js-synthesizer) and the reader
 * `soundfont2`, which know nothing of trimming.
 */
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { renderWithJsSynth, type StereoRender } from '../prove/js-synth.ts';
import { Seeded } from '../prove/seeded.ts';
import { naiveReach } from './naive-reach.ts';
import { amount, readBank, takes, type RawBank, type RawOwner, type RawZone } from './read-bank.ts';
import { readWithSoundfont2, type ReadOwner } from './soundfont2-reader.ts';
import { trimInMemory, trimWith, type TrimmedInMemory } from './trim-in-memory.ts';

const files = demoFiles();
const memory = new MemoryFiles(Object.fromEntries(files.map(({ path, bytes }) => [path, bytes])));
const whole = files.find(({ path }) => path.endsWith('.sf2'))!;
const cues = new Map(
  files.filter(({ path }) => path.startsWith('cues/')).map(({ path, bytes }) => [path, bytes]),
);
const reel = [...cues.keys()];
const seeded = new Seeded(6);

const isSame = (a: StereoRender, b: StereoRender): boolean =>
  [0, 1].every((side) => {
    const [one, other] = [a[side]!, b[side]!];
    return one.length === other.length && one.every((value, i) => Object.is(value, other[i]));
  });

const once = <T>(make: (key: string) => Promise<T>): ((key: string) => Promise<T>) => {
  const made = new Map<string, Promise<T>>();
  return (key) => {
    const known = made.get(key) ?? make(key);
    made.set(key, known);
    return known;
  };
};

const renderOf = (bank: Uint8Array, cue: string) => renderWithJsSynth(bank, cues.get(cue)!);
const wholeRender = once((cue) => renderOf(whole.bytes, cue));
const trimmedFor = once((cue) => trimInMemory(memory, whole.path, [cue]));
const trimmedReel = once((path) => trimInMemory(memory, path, reel));
const forReel = (): Promise<TrimmedInMemory> => trimmedReel(whole.path);

describe('trimmed banks sound as the whole one', () => {
  test.each(reel)('%s', { timeout: 300_000 }, async (cue) => {
    const [alone, together] = [await trimmedFor(cue), await forReel()];
    expect(alone.bytes.length).toBeLessThan(together.bytes.length);
    expect(together.bytes.length).toBeLessThan(whole.bytes.length / 2);
    expect(isSame(await renderOf(alone.bytes, cue), await wholeRender(cue))).toBe(true);
    expect(isSame(await renderOf(together.bytes, cue), await wholeRender(cue))).toBe(true);
  });
});

/** For each sample of a bank that some cue plays by the letter, the first such cue. */
const cuesOfSamples = (bank: Uint8Array): ReadonlyMap<number, string> => {
  const raw = readBank(bank);
  const first = new Map<number, string>();
  for (const [path, bytes] of cues) {
    for (const sample of naiveReach(raw, bytes).samples) {
      if (!first.has(sample)) first.set(sample, path);
    }
  }
  return first;
};

const silenced = (bank: Uint8Array, sample: number): Uint8Array => {
  const { samples, pointsAt } = readBank(bank);
  const { start, end } = samples[sample]!;
  return Uint8Array.from(bank).fill(0, pointsAt + 2 * start, pointsAt + 2 * end);
};

describe('what is left is heard', () => {
  test('hardly a sample stays that no cue plays by the letter', async () => {
    const { bytes } = await forReel();
    const { size } = cuesOfSamples(bytes);
    expect(size).toBeGreaterThan(200);
    expect(readBank(bytes).samples.length).toBeLessThan(size * 1.05);
  });

  test('a dozen samples, each silenced in turn', { timeout: 300_000 }, async () => {
    const { bytes } = await forReel();
    const chosen = seeded.choose([...cuesOfSamples(bytes)], 12);
    expect(chosen).toHaveLength(12);
    for (const [sample, cue] of chosen) {
      const render = await renderOf(silenced(bytes, sample), cue);
      expect(isSame(render, await wholeRender(cue)), `sample ${String(sample)}`).toBe(false);
    }
  });

  test('a zone too many is gone: another render', { timeout: 300_000 }, async () => {
    const cue = seeded.choose(reel, 1)[0]!;
    const { set } = await trimmedFor(cue);
    const played = [...naiveReach(readBank(whole.bytes), cues.get(cue)!).zones];
    for (const zone of seeded.choose(played, 3)) {
      const loaded = new Set([...set.loaded].filter((one) => one !== zone));
      expect(loaded.size).toBe(set.loaded.size - 1);
      const { bytes } = await trimWith(memory, whole.path, { ...set, loaded });
      expect(isSame(await renderOf(bytes, cue), await wholeRender(cue))).toBe(false);
    }
  });
});

const full = readWithSoundfont2(whole.bytes);
const rawFull = readBank(whole.bytes);

/** Zones of the whole bank that should stay of one preset or instrument. */
const staying = (
  owner: ReadOwner,
  raw: RawOwner,
  operator: number,
  stays: (bag: number, target: number) => boolean,
) => {
  // The library leaves out zones that lead nowhere.
  const leading = raw.zones.filter((zone) => amount(zone, operator) !== undefined);
  expect(owner.zones).toHaveLength(leading.length);
  return owner.zones.filter((_, at) => stays(leading[at]!.bag, amount(leading[at]!, operator)!));
};

const withZones = (
  owners: readonly ReadOwner[],
  raw: readonly RawOwner[],
  operator: number,
  stays: (bag: number, target: number) => boolean,
): readonly ReadOwner[] =>
  owners
    .map((owner, at) => ({ ...owner, zones: staying(owner, raw[at]!, operator, stays) }))
    .filter(({ zones }) => zones.length > 0);

/** Keys and velocities of notes, from 1: what a place has at 0 is never played. */
const played = Array.from({ length: 127 }, (_, value) => value + 1);

const isReached = (zone: RawZone): boolean =>
  played.some((key) => played.some((velocity) => takes(zone, key, velocity)));

/** Names of the samples that zones lead to, by their bag numbers. */
const sampleNames = ({ instruments, samples }: RawBank): ReadonlyMap<number, string> =>
  new Map(
    instruments.flatMap(({ zones }) =>
      zones.map((zone) => [zone.bag, samples[amount(zone, 53) ?? -1]?.name ?? ''] as const),
    ),
  );

describe('soundfont2 reads what a plan keeps, and nothing else', () => {
  test.each([...reel, 'the reel'])('%s', async (cue) => {
    const { set, bytes, zones } = cue === 'the reel' ? await forReel() : await trimmedFor(cue);
    const trimmed = readWithSoundfont2(bytes);
    const raw = readBank(bytes);

    const instruments = withZones(full.instruments, rawFull.instruments, 53, (bag) =>
      set.loaded.has(bag),
    );
    expect(trimmed.instruments).toEqual(instruments);

    const sounding = new Set(
      rawFull.instruments.flatMap((one, at) =>
        one.zones.some(({ bag }) => set.loaded.has(bag)) ? [at] : [],
      ),
    );
    const presets = withZones(
      full.presets,
      rawFull.presets,
      41,
      (bag, instrument) => set.presetZones.has(bag) && sounding.has(instrument),
    );
    const nameOf = ({ bank, program }: ReadOwner): string => `${String(bank)}:${String(program)}`;
    const named = new Set(presets.map(nameOf));
    expect(trimmed.presets.filter((one) => named.has(nameOf(one)))).toEqual(presets);
    // The others hold a place for programs that are chosen: no note reaches a zone of theirs.
    const places = trimmed.presets.filter((one) => !named.has(nameOf(one)));
    const chosen = full.presets.filter(
      (one) => !named.has(nameOf(one)) && set.programs.has(one.program),
    );
    expect(places.map(nameOf)).toEqual(chosen.map(nameOf));
    for (const place of places) {
      const { zones: silent } = raw.presets.find(
        (one) => one.bank === place.bank && one.program === place.program,
      )!;
      expect(silent.filter(isReached)).toEqual([]);
    }

    const used = new Set(
      rawFull.instruments.flatMap((one) =>
        one.zones.flatMap((zone) => (set.loaded.has(zone.bag) ? [amount(zone, 53)!] : [])),
      ),
    );
    expect(trimmed.samples).toEqual(full.samples.filter((_, index) => used.has(index)));
    expect(raw.samples.map(({ start, end }) => end - start)).toEqual(
      trimmed.samples.map(({ length }) => length),
    );

    // The map from old zone numbers to new ones leads to the same samples.
    expect([...zones.keys()].sort((a, b) => a - b)).toEqual([...set.loaded].sort((a, b) => a - b));
    const [before, after] = [sampleNames(rawFull), sampleNames(raw)];
    for (const [from, to] of zones) expect(after.get(to)).toBe(before.get(from));
  });
});
