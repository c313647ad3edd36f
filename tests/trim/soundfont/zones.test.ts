import { describe, expect, test } from 'vitest';
import type { Generator, ZonePlan } from '../../oracle/soundfont-bytes.ts';
import { irom, type TrimPlan } from './bank.ts';
import { everything, keeping, trimPlan } from './trimming.ts';

/** Section numbers are those of SoundFont 2.04. */
const keys = (low: number, high: number): Generator => [43, low | (high << 8)];
const pan = (amount: number): Generator => [17, amount];
const toSample = (index: number, ...others: Generator[]): ZonePlan => ({
  generators: [...others, [53, index]],
});
const toInstrument = (index: number, ...others: Generator[]): ZonePlan => ({
  generators: [...others, [41, index]],
});
const loose = (...generators: Generator[]): ZonePlan => ({ generators });

/** Preset zone 0 leads to the one instrument; sample 1 can't be played, 0 and 2 can. */
const oneInstrument = (...zones: ZonePlan[]): TrimPlan => ({
  presets: [{ name: 'p', bank: 0, program: 0, zones: [toInstrument(0)] }],
  instruments: [{ name: 'i', zones }],
  samples: [
    { start: 0, end: 100 },
    { start: 150, end: 150 },
    { start: 200, end: 300 },
  ],
  points: 346,
});

const generatorsOf = async (plan: TrimPlan, loaded: readonly number[]) => {
  const { after, trimmed } = await trimPlan(plan, keeping(loaded, [0]));
  return {
    zones: after.instruments[0]!.zones.map(({ generators }) => generators),
    map: [...trimmed.zones],
    places: trimmed.places,
    samples: after.samples.map(({ name }) => name),
  };
};

const neutral = [keys(0, 127)];
const silent = (instrument: number) => [keys(0, 0), [44, 0], [41, instrument]];

describe('instrument zones', () => {
  test('that go take their samples with them, orphans too; the rest is numbered anew', async () => {
    const plan = oneInstrument(toSample(0), toSample(2, pan(3)), toSample(0, pan(4)));
    expect(await generatorsOf(plan, [1])).toEqual({
      zones: [[pan(3), [53, 0]]],
      map: [[1, 0]],
      places: [],
      samples: ['sample 2'],
    });
  });

  test('keep their global zone, alone with it too (7.7)', async () => {
    const plan = oneInstrument(loose(keys(1, 9)), toSample(0), toSample(2));
    expect(await generatorsOf(plan, [2])).toEqual({
      zones: [[keys(1, 9)], [[53, 0]]],
      map: [[2, 1]],
      places: [],
      samples: ['sample 2'],
    });
  });

  test('generators come out in their order, unknown, ignored and repeated ones too', async () => {
    const odd: Generator[] = [pan(1), keys(2, 3), [77, 0xbeef], pan(5), [41, 9]];
    const zone = { generators: [...odd, [53, 2], [53, 0], [53, 2], pan(6)] as Generator[] };
    const { zones } = await generatorsOf(oneInstrument(toSample(0), zone), [1]);
    // Behind the first link nothing counts, but no index may name a sample that is gone.
    expect(zones).toEqual([[...odd, [53, 0], [53, 0], [53, 0], pan(6)]]);
  });

  test('modulators stay with their zone', async () => {
    const zones: ZonePlan[] = [
      { ...toSample(0), modulators: [[1, 2, 3, 4, 5]] },
      {
        ...toSample(2),
        modulators: [
          [0x0502, 48, 960, 0, 0],
          [9, 9, 0xffff, 9, 9],
        ],
      },
    ];
    const { after } = await trimPlan(oneInstrument(...zones), keeping([1], [0]));
    expect(after.instruments[0]!.zones[0]!.modulators).toEqual([
      '02053000c00300000000',
      '09000900ffff09000900',
    ]);
  });
});

describe('a first zone whose sample can not be played passes its generators on in FluidSynth', () => {
  test('so it stays while another zone does', async () => {
    const plan = oneInstrument(toSample(1, pan(9)), toSample(0), toSample(2));
    expect(await generatorsOf(plan, [2])).toEqual({
      zones: [[pan(9), [53, 0]], [[53, 1]]],
      map: [[2, 1]],
      places: [0],
      samples: ['sample 1', 'sample 2'],
    });
  });

  test('but goes when none does, and is nothing special when it is kept itself', async () => {
    const plan = oneInstrument(toSample(1, pan(9)), toSample(0));
    const kept = await generatorsOf(plan, [0]);
    expect(kept).toMatchObject({ map: [[0, 0]], places: [] });
    await expect(trimPlan(plan, keeping([], [0]))).rejects.toThrow('trim-nothing');
  });

  test('no other zone comes to be such a first one: a neutral global zone goes before it', async () => {
    const plan = oneInstrument(toSample(0), toSample(1, pan(9)), toSample(2));
    expect(await generatorsOf(plan, [1, 2])).toEqual({
      zones: [neutral, [pan(9), [53, 0]], [[53, 1]]],
      map: [
        [1, 1],
        [2, 2],
      ],
      places: [],
      samples: ['sample 1', 'sample 2'],
    });
  });

  test('with a real global zone neither happens', async () => {
    const plan = oneInstrument(loose(pan(7)), toSample(0), toSample(1), toSample(2));
    expect((await generatorsOf(plan, [2, 3])).zones).toEqual([[pan(7)], [[53, 0]], [[53, 1]]]);
    expect((await generatorsOf(plan, [3])).zones).toEqual([[pan(7)], [[53, 0]]]);
  });

  test.each([
    ['in ROM', { start: 0, end: 100, type: 0x8001 }],
    ['of unknown type', { start: 0, end: 100, type: 0x21 }],
    ['compressed', { start: 0, end: 100, type: 0x11 }],
    ['that ends behind the sound', { start: 300, end: 347 }],
    ['of three points', { start: 0, end: 3 }],
    ['that ends before it starts', { start: 9, end: 3 }],
  ])('a sample %s', async (_what, sample) => {
    const plan = oneInstrument(toSample(1), toSample(0), toSample(2));
    const samples = [plan.samples[0]!, sample, plan.samples[2]!];
    const { places, zones } = await generatorsOf({ ...plan, samples, info: [irom] }, [2]);
    expect(places).toEqual([0]);
    expect(zones).toHaveLength(2);
  });
});

describe('a zone that leads nowhere and is not the first is ignored, and goes (7.3, 7.7)', () => {
  test('in an instrument', async () => {
    const plan = oneInstrument(toSample(0), loose(pan(1)), toSample(2), loose(pan(2)));
    expect((await generatorsOf(plan, [0, 2])).zones).toEqual([[[53, 0]], [[53, 1]]]);
    // With the first one gone it must not become the global zone that it was not.
    expect((await generatorsOf(plan, [2])).zones).toEqual([[[53, 0]]]);
  });

  test('but does not shield others from a first zone that can not be played', async () => {
    const plan = oneInstrument(toSample(1), loose(pan(1)), toSample(2));
    expect((await generatorsOf(plan, [2])).zones).toEqual([[[53, 0]], [[53, 1]]]);
    const later = oneInstrument(toSample(0), loose(pan(1)), toSample(1), toSample(2));
    expect((await generatorsOf(later, [2, 3])).zones).toEqual([neutral, [[53, 0]], [[53, 1]]]);
  });

  test('in a preset', async () => {
    const zones = [toInstrument(0), loose(pan(1)), toInstrument(0, pan(2))];
    const presets = [{ name: 'p', bank: 0, program: 0, zones }];
    const plan = { ...oneInstrument(toSample(0)), presets };
    const { after } = await trimPlan(plan, keeping([0], [2]));
    expect(after.presets[0]!.zones.map(({ generators }) => generators)).toEqual([
      [pan(2), [41, 0]],
    ]);
  });
});

describe('presets', () => {
  const preset = (name: string, program: number, ...zones: ZonePlan[]) => ({
    ...{ name, bank: 0, program },
    zones,
  });
  const plan: TrimPlan = {
    presets: [
      preset('c', 2, toInstrument(1)),
      preset('a', 0, loose(pan(1)), toInstrument(0, keys(1, 2)), toInstrument(1, keys(3, 4))),
      preset('b', 1, toInstrument(0)),
      preset('empty', 3),
      preset('d', 4, loose(pan(2))),
    ],
    instruments: [
      { name: 'i', zones: [toSample(0), toSample(0)] },
      { name: 'j', zones: [toSample(1)] },
      { name: 'none', zones: [] },
    ],
    samples: [
      { start: 0, end: 100 },
      { start: 146, end: 246 },
    ],
    points: 292,
  };
  const summary = async (keep: ReturnType<typeof keeping>) => {
    const { after } = await trimPlan(plan, keep);
    return after.presets.map(({ name, zones }) => [name, zones.map((zone) => zone.generators)]);
  };

  test('stay with the zones that are kept and lead to something kept', async () => {
    expect(await summary(keeping([0, 1], [0, 2, 3]))).toEqual([
      ['a', [[pan(1)], [keys(1, 2), [41, 0]]]],
    ]);
  });

  test('whose program is chosen keep a place that no note reaches, in file order', async () => {
    const { after, trimmed } = await trimPlan(plan, keeping([2], [3], [2, 0, 1, 3, 4]));
    expect(
      after.presets.map(({ name, zones }) => [name, zones.map((zone) => zone.generators)]),
    ).toEqual([
      ['c', [silent(0)]],
      ['a', [[pan(1)], [keys(3, 4), [41, 0]]]],
      ['b', [silent(0)]],
      ['empty', []],
      ['d', [silent(0)]],
    ]);
    expect(after.instruments.map(({ name }) => name)).toEqual(['j']);
    // Program, bank, then the three unused numbers of the record, as they stood (7.2).
    expect(after.presets[0]!.rest).toBe('02000000010000000200000003000000');
    expect(trimmed.places).toEqual([]);
  });

  test('a place leads to the instrument with the fewest zones', async () => {
    expect(await summary(keeping([0, 1, 2], [2, 3], [1]))).toContainEqual(['b', [silent(1)]]);
  });

  test('nothing to lead to, or nobody to lead there: nothing is written', async () => {
    await expect(trimPlan(plan, keeping([], [0, 2], [0]))).rejects.toThrow('trim-nothing');
    await expect(trimPlan(plan, keeping([0], []))).rejects.toThrow('trim-nothing');
  });
});

test('keeping all of a bank without oddities gives the same lists', async () => {
  const plan = oneInstrument(loose(keys(1, 9)), toSample(0), toSample(1), toSample(2));
  const { before, after } = await trimPlan(plan, everything(plan));
  expect(after.presets).toEqual(before.presets);
  expect(after.instruments).toEqual(before.instruments);
  expect(after.terminals).toEqual(before.terminals);
});
