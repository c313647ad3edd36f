import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { minimal } from './doubts.ts';
import { instrument, keys, sample, velocities, zone } from './probe.ts';
import { randomBank } from './random-bank.ts';
import { readBank } from './soundfont-bank.ts';
import { range, writeBank, type BankPlan, type Generator } from './soundfont-bytes.ts';

const pan: Generator = [17, 30];
const noise = [{ name: 'noise' }];

test('minimal sets: a set that contains another one goes', () => {
  expect(minimal([])).toEqual([]);
  expect(minimal([4, 4, 1, 5, 129])).toEqual([1, 4]);
  expect(minimal([132, 0, 4])).toEqual([0]);
  expect(minimal([132, 5])).toEqual([5, 132]);
});

describe('the bytes of a bank', () => {
  const plan: BankPlan = {
    presets: [
      { name: 'Strings', bank: 3, program: 48, zones: [zone(keys(36, 60), instrument(1))] },
      { name: 'Drums', bank: 128, program: 0, zones: [zone(pan), zone(instrument(0))] },
    ],
    instruments: [
      { name: 'Kit', zones: [{ ...zone(sample(1)), modulators: [[0x0502, 48, 960, 0, 0]] }] },
      { name: 'Section', zones: [zone(pan), zone(velocities(1, 90), sample(0))] },
    ],
    samples: [
      { name: 'left', frames: 101, link: 1, type: 4, rate: 44_100 },
      { name: 'right', link: 0, type: 2 },
    ],
  };
  const bytes = writeBank(plan);
  const file = Buffer.from(bytes);
  /** The body of a chunk, found by its name alone. */
  const body = (name: string) => {
    const at = file.indexOf(name, 0, 'latin1');
    return file.subarray(at + 8, at + 8 + file.readUInt32LE(at + 4));
  };

  test('the outermost chunk holds the whole file', () => {
    expect(file.readUInt32LE(4)).toBe(bytes.length - 8);
    const order = ['INFO', 'sdta', 'pdta', 'phdr', 'pbag', 'pmod', 'pgen', 'inst', 'ibag', 'imod'];
    const places = [...order, 'igen', 'shdr'].map((name) => file.indexOf(name, 0, 'latin1'));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  // Sections 7.2 to 7.10: record sizes, and one terminal record in each list.
  test.each([
    ['phdr', 3 * 38],
    ['pbag', 4 * 4],
    ['pmod', 10],
    ['pgen', 5 * 4],
    ['inst', 3 * 22],
    ['ibag', 4 * 4],
    ['imod', 2 * 10],
    ['igen', 5 * 4],
    ['shdr', 3 * 46],
  ])('%s has %i bytes', (name, size) => {
    expect(body(name).length).toBe(size);
  });

  test('bags count generators and modulators, the terminal bag their ends', () => {
    const words = (name: string) => [...new Uint16Array(Uint8Array.from(body(name)).buffer)];
    expect(words('pbag')).toEqual([0, 0, 2, 0, 3, 0, 4, 0]);
    expect(words('ibag')).toEqual([0, 0, 1, 1, 2, 1, 4, 1]);
    expect(words('pgen')).toEqual([43, 36 | (60 << 8), 41, 1, 17, 30, 41, 0, 0, 0]);
    expect(words('igen')).toEqual([53, 1, 17, 30, 44, 1 | (90 << 8), 53, 0, 0, 0]);
    expect(words('imod')).toEqual([0x0502, 48, 960, 0, 0, 0, 0, 0, 0, 0]);
  });

  test('sound, then 46 zero points after each sample', () => {
    const smpl = body('smpl');
    expect(smpl.length).toBe((101 + 46 + 64 + 46) * 2);
    expect(smpl.subarray(0, 20).equals(Buffer.alloc(20))).toBe(false);
    expect(smpl.subarray(101 * 2, (101 + 46) * 2).equals(Buffer.alloc(92))).toBe(true);
    expect(smpl.subarray(-92).equals(Buffer.alloc(92))).toBe(true);
    const shdr = body('shdr');
    // Start, end, loop start, loop end, rate of the second sample; then key, link and type.
    const fields = [0, 1, 2, 3, 4].map((field) => shdr.readUInt32LE(46 + 20 + field * 4));
    expect(fields).toEqual([147, 211, 155, 203, 22_050]);
    expect([shdr.readUInt8(86), shdr.readUInt16LE(88), shdr.readUInt16LE(90)]).toEqual([60, 0, 2]);
  });

  test('24-bit: half the size of smpl, rounded up to even, and version 2.04', () => {
    const wide = Buffer.from(writeBank({ ...plan, sm24: true }));
    const at = wide.indexOf('sm24', 0, 'latin1');
    expect(wide.readUInt32LE(at + 4)).toBe(258);
    expect(file.includes('sm24')).toBe(false);
    const ifil = wide.indexOf('ifil', 0, 'latin1') + 8;
    expect([wide.readUInt16LE(ifil), wide.readUInt16LE(ifil + 2)]).toEqual([2, 4]);
  });

  test('a ROM sample has a header, no sound, and the ROM named', () => {
    const rom = Buffer.from(
      writeBank({ ...plan, samples: [{ name: 'rom', type: 0x8001 }, ...noise] }),
    );
    const at = rom.indexOf('smpl', 0, 'latin1');
    expect(rom.readUInt32LE(at + 4)).toBe((64 + 46) * 2);
    expect(rom.includes('irom')).toBe(true);
  });

  test('reading gives back what was written', () => {
    const bank = readBank(bytes);
    expect(bank.presets.map(({ name, bank: b, program }) => [name, b, program])).toEqual([
      ['Strings', 3, 48],
      ['Drums', 128, 0],
    ]);
    const [strings, drums] = bank.presets;
    expect(strings?.locals).toMatchObject([{ index: 0, keys: { low: 36, high: 60 }, target: 1 }]);
    expect(drums?.global?.index).toBe(1);
    expect(drums?.locals).toMatchObject([{ index: 2, keys: null, target: 0 }]);
    const [kit, section] = bank.instruments;
    expect(kit).toMatchObject({ name: 'Kit', global: null, locals: [{ index: 0, target: 1 }] });
    expect(section?.global?.index).toBe(1);
    expect(section?.locals).toMatchObject([
      { index: 2, keys: null, velocities: { low: 1, high: 90 }, target: 0 },
    ]);
    expect(bank.samples).toEqual([
      { index: 0, name: 'left', start: 0, end: 101, link: 1, type: 4 },
      { index: 1, name: 'right', start: 147, end: 211, link: 0, type: 2 },
    ]);
  });
});

describe('which zones and generators count', () => {
  const read = (zones: BankPlan['presets'][number]['zones']) =>
    readBank(
      writeBank({
        presets: [
          { name: 'empty', bank: 0, program: 0, zones: [] },
          { name: 'probe', bank: 0, program: 0, zones: [zone(instrument(0))] },
        ],
        instruments: [{ name: 'probe', zones }],
        samples: [{ name: 'a' }, { name: 'b' }],
      }),
    );
  const limits = (low: number, high: number) => ({ low, high });

  // Sections 7.9 and 8.1.2: one instrument zone, and what counts in it.
  test.each<[string, Generator[], object]>([
    [
      'both ranges in place',
      [keys(1, 2), velocities(3, 4), sample(0)],
      [limits(1, 2), limits(3, 4)],
    ],
    ['velocity range alone', [velocities(3, 4), sample(0)], [null, limits(3, 4)]],
    [
      'key range after velocity range',
      [velocities(3, 4), keys(1, 2), sample(0)],
      [null, limits(3, 4)],
    ],
    ['key range after another', [pan, keys(1, 2), sample(0)], [null, null]],
    ['velocity range after another', [pan, velocities(3, 4), sample(0)], [null, null]],
    [
      'one between the ranges',
      [keys(1, 2), pan, velocities(3, 4), sample(0)],
      [limits(1, 2), null],
    ],
    ['key range twice', [keys(1, 2), keys(5, 6), sample(0)], [limits(1, 2), null]],
    ['velocity range twice', [velocities(3, 4), velocities(5, 6), sample(0)], [null, limits(3, 4)]],
    ['ranges after the sample', [sample(0), keys(1, 2), velocities(3, 4)], [null, null]],
  ])('%s', (_, generators, expected) => {
    const local = read([{ generators }]).instruments[0]?.locals[0];
    expect([local?.keys, local?.velocities]).toEqual(expected);
    expect(local?.target).toBe(0);
  });

  test('the same operator twice: the last wins; a second sample comes after the first', () => {
    const local = read([zone(pan, [17, 99], sample(1), sample(0))]).instruments[0]?.locals[0];
    expect(local?.amounts.get(17)).toBe(99);
    expect(local?.target).toBe(1);
  });

  test('the first zone is global if it names no sample and is not the only one', () => {
    const global = read([zone(keys(1, 2)), zone(sample(0))]).instruments[0];
    expect([global?.global?.keys, global?.locals.length]).toEqual([limits(1, 2), 1]);
    const only = read([zone(keys(1, 2))]).instruments[0];
    expect([only?.global, only?.locals.length]).toEqual([null, 0]);
    const first = read([zone(sample(0)), zone(pan)]).instruments[0];
    expect([first?.global, first?.locals.length]).toEqual([null, 1]);
    const late = read([zone(pan, sample(0), pan), zone(sample(1))]).instruments[0];
    expect([late?.global, late?.locals.map(({ target }) => target)]).toEqual([null, [0, 1]]);
  });

  test('a later zone without a sample is ignored and still counts as a bag', () => {
    const zones = [zone(sample(0)), zone(pan), zone(sample(1)), zone()];
    expect(read(zones).instruments[0]?.locals.map(({ index }) => index)).toEqual([0, 2]);
  });

  test('a preset without zones is ignored', () => {
    expect(read([zone(sample(0))]).presets.map(({ index, name }) => [index, name])).toEqual([
      [1, 'probe'],
    ]);
  });

  test('a zone that names an instrument or a sample that is not there is an error', () => {
    expect(() => read([zone(sample(2))])).toThrow('zone 0 of ibag names 2');
  });

  test('a range is low byte first', () => {
    expect(range(36, 60)).toBe(0x3c24);
  });
});

test('random banks: every preset, instrument and zone comes back in its place', () => {
  fc.assert(
    fc.property(randomBank(), (plan) => {
      const bank = readBank(writeBank(plan));
      const withZones = plan.presets.flatMap((preset, index) =>
        preset.zones.length > 0 ? [{ index, name: preset.name }] : [],
      );
      expect(bank.presets.map(({ index, name }) => ({ index, name }))).toEqual(withZones);
      expect(bank.instruments.map(({ name }) => name)).toEqual(
        plan.instruments.map(({ name }) => name),
      );
      // Bag numbers run on over the file, and each zone keeps its own generators.
      const all = plan.instruments.flatMap(({ zones }) => zones);
      const locals = bank.instruments.flatMap((owner) => owner.locals);
      const sounding = all.flatMap(({ generators }, index) =>
        generators.some(([operator]) => operator === 53) ? [index] : [],
      );
      expect(locals.map(({ index }) => index)).toEqual(sounding);
      for (const local of locals) {
        const generators = all[local.index]?.generators ?? [];
        expect(generators.find(([operator]) => operator === 53)?.[1]).toBe(local.target);
      }
    }),
  );
});
