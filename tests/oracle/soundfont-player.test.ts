/**
 * Hand-worked tables for channels, presets and ranges; held keys and tuning, and order and start
 * state, have files of their own. In each table the events stand on ticks of their own, so that no
 * doubt about order comes in.
 */
import { describe, expect, test } from 'vitest';
import {
  control,
  heard,
  instrument,
  keys,
  on,
  program,
  reached,
  sample,
  sysex,
  velocities,
  zone,
  zoneProbe,
} from './probe.ts';
import { writeBank, type ZonePlan } from './soundfont-bytes.ts';
import type { OracleEvent } from './soundfont-events.ts';
import { play, readBank } from './soundfont-player.ts';
import { followReader, otherReaders } from './soundfont-readers.ts';
import { gm2On, gmOff, gmOn, gsReset, rhythmPart, xgOn, xgReset } from './sysex.ts';

/** 393 is 3 * 128 + 9. */
const presets = ['0:0', '0:5', '3:0', '3:5', '9:5', '393:5', '128:0', '128:5'];

type Table = [string, OracleEvent[], Record<string, string[]>][];

describe('banks and programs', () => {
  test.each<Table[number]>([
    ['power-on is 0:0', [on(0)], { '0:0': ['plain'] }],
    ['power-on of the tenth channel is 128:0', [on(0, 9)], { '128:0': ['plain'] }],
    [
      'each mode makes its own bank of the two selects',
      [control(0, 0, 3), control(1, 32, 9), program(2, 5), on(3)],
      { '3:5': ['plain'], '0:5': ['engine'], '9:5': ['engine'], '393:5': ['engine'] },
    ],
    [
      'a program change takes the bank as it stands, a later select waits',
      [control(0, 0, 3), program(1, 5), control(2, 0, 9), on(3)],
      { '3:5': ['plain'], '0:5': ['engine'] },
    ],
    ['a bank select alone changes nothing', [control(0, 0, 3), on(1)], { '0:0': ['plain'] }],
    ['channels are apart', [control(0, 0, 3, 1), program(1, 5, 1), on(2)], { '0:0': ['plain'] }],
    [
      'the drum channel ignores bank selects, except as an XG drum switch',
      [control(0, 0, 3, 9), control(1, 32, 9, 9), program(2, 5, 9), on(3, 9)],
      { '128:5': ['plain'], '9:5': ['engine'] },
    ],
  ])('%s', (_, events, expected) => {
    expect(heard(presets, events)).toEqual(expected);
  });

  // In XG mode 120 and above make a drum channel (FluidSynth 2.3.1, measured); to the others that
  // obey no message these are banks without presets.
  test.each([
    [119, { '0:5': ['plain'] }],
    [120, { '128:5': ['plain'], '0:5': ['engine'] }],
    [121, { '128:5': ['plain'], '0:5': ['engine'] }],
    [125, { '128:5': ['plain'], '0:5': ['engine'] }],
    [126, { '128:5': ['plain'], '0:5': ['engine'] }],
    [127, { '128:5': ['plain'], '0:5': ['engine'] }],
  ])('XG with controller 0 = %i', (value, expected) => {
    const events = [sysex(0, xgOn(0x10)), control(1, 0, value), program(2, 5), on(3)];
    expect(heard(presets, events)).toEqual(expected);
  });

  // Bank 9 here is heard by mode xg below 120, and by mode gm2 except at 120, 126 and 127.
  const bank9 = { '0:5': ['plain'], '9:5': ['engine'] };
  const drumsOrBank9 = { ...bank9, '128:5': ['engine'] };
  const drumsOnly = { '0:5': ['plain'], '128:5': ['engine'] };
  test.each([
    [119, bank9],
    [120, drumsOnly],
    [121, drumsOrBank9],
    [125, drumsOrBank9],
    [126, drumsOnly],
    [127, drumsOnly],
  ])('no message at all, controller 0 = %i', (value, expected) => {
    const events = [control(0, 0, value), control(1, 32, 9), program(2, 5), on(3)];
    expect(heard(presets, events)).toEqual(expected);
  });

  test('in mode gm2 controller 0 = 121 takes the drums from the tenth channel', () => {
    const events = [control(0, 0, 121, 9), control(1, 32, 9, 9), program(2, 5, 9), on(3, 9)];
    expect(heard(presets, events)).toEqual({ '128:5': ['plain'], '9:5': ['engine'] });
  });

  test('after GM2 on, or XG on, mode gm2 is over', () => {
    const events = [control(1, 0, 121), control(2, 32, 9), program(3, 5), on(4)];
    // Left for bank 9 are the readers of mode gm2 that obey no message.
    const gm2Left = followReader({ mode: 'gm2', obeyed: 'none', doubts: 128 }, events);
    expect(gm2Left.patches[2]?.get(0)).toEqual({ bank: 9, program: 5 });
    const patchAfter = (data: number[]) => {
      const reader = { mode: 'gm2', obeyed: 'standard', doubts: 128 } as const;
      return followReader(reader, [sysex(0, data), ...events]).patches[3]?.get(0);
    };
    expect(patchAfter(gm2On(0x7f))).toEqual({ bank: 0, program: 5 });
    expect(patchAfter(gmOff(0x7f))).toEqual({ bank: 121, program: 5 });
    expect(patchAfter(xgOn(0x7f))).toEqual({ bank: 128, program: 5 });
  });

  test('nineteen other readers, all different and all in doubt about the engine', () => {
    const names = otherReaders.map(({ mode, obeyed, doubts }) => `${mode} ${obeyed} ${doubts}`);
    expect(new Set(names).size).toBe(19);
    expect(names).not.toContain('gs standard 128');
    expect(names.every((name) => name.endsWith(' 128'))).toBe(true);
  });

  test('an XG drum switch waits for a program change', () => {
    const events = [sysex(0, xgOn(0x7f)), program(1, 5), control(2, 0, 127), on(3)];
    expect(heard(presets, events)).toEqual({ '0:5': ['plain'] });
  });

  test('back from drums, an XG channel has the bank it had; controller 32 is ignored meanwhile', () => {
    const drums = [control(1, 32, 9), control(2, 0, 127), control(3, 32, 3), program(4, 0)];
    const events = [sysex(0, xgOn(0x7f)), ...drums, control(5, 0, 0), program(6, 5), on(7)];
    // Readers that obey nothing: 0 in mode gs and gm, 9 in mode xg, 0 * 128 + 3 in mode mma.
    expect(heard(presets, events)).toEqual({
      '9:5': ['plain'],
      '0:5': ['engine'],
      '3:5': ['engine'],
    });
  });
});

describe('system resets', () => {
  test('the bytes in use everywhere (from memory)', () => {
    const hex = (data: number[]) => Buffer.from(data).toString('hex');
    expect(hex(gsReset(0x10))).toBe('41104212' + '40007f00' + '41');
    expect(hex(xgOn(0x10))).toBe('43104c00007e00');
    expect(hex(xgReset(0x10))).toBe('43104c00007f00');
    expect(hex(gmOn(0x7f))).toBe('7e7f0901');
    expect(hex(gmOff(0x7f))).toBe('7e7f0902');
    expect(hex(gm2On(0x7f))).toBe('7e7f0903');
  });

  const resets = [
    ['GM on', gmOn],
    ['GM off', gmOff],
    ['GM2 on', gm2On],
    ['GS reset', gsReset],
    ['GS reset, leaving the mode', (device: number) => gsReset(device, 0x7f)],
    ['XG system on', xgOn],
    ['XG all parameter reset', xgReset],
  ] as const;
  const devices = [
    [0x10, { '0:0': ['plain'], '0:5': ['engine'] }],
    [0x7f, { '0:0': ['plain'], '0:5': ['engine'] }],
    [0x00, { '0:5': ['plain'], '0:0': ['engine'] }],
    [0x11, { '0:5': ['plain'], '0:0': ['engine'] }],
  ] as const;
  test.each(
    resets.flatMap(([name, message]) =>
      devices.map(([device, expected]) => [name, device, message(device), expected] as const),
    ),
  )('%s with device %i', (_, __, data, expected) => {
    expect(heard(presets, [program(0, 5), sysex(1, data), on(2)])).toEqual(expected);
  });

  /** The GS reset with two data bytes has a right checksum: 0x40 + 0x7F + 0x41 = 2 * 128. */
  test.each([
    ['a wrong checksum', gsReset(0x10).with(-1, 0x40)],
    ['two data bytes', [0x41, 0x10, 0x42, 0x12, 0x40, 0x00, 0x7f, 0x00, 0x00, 0x41]],
    ['another value', gsReset(0x10, 0x01)],
    ['a byte too many', [...gmOn(0x10), 0x00]],
    ['a byte too few', [0x7e, 0x10, 0x09]],
    ['an unknown message', [0x7e, 0x10, 0x09, 0x04]],
    ['XG with another value', [0x43, 0x10, 0x4c, 0x00, 0x00, 0x7e, 0x01]],
    ['XG all parameter reset, a byte too many', [...xgReset(0x10), 0x00]],
    ['XG all parameter reset, a byte too few', xgReset(0x10).slice(0, 6)],
    ['nothing', []],
  ])('%s is no reset', (_, data) => {
    expect(heard(presets, [program(0, 5), sysex(1, data), on(2)])).toEqual({ '0:5': ['plain'] });
  });

  test.each([
    ['GM on: no banks', gmOn(0x7f), '0:5'],
    ['GM2 on: no banks', gm2On(0x7f), '0:5'],
    ['GM off: controller 0', gmOff(0x7f), '3:5'],
    ['GS: controller 0', gsReset(0x7f), '3:5'],
    ['XG: controller 32', xgOn(0x7f), '9:5'],
    ['XG all parameter reset: controller 32', xgReset(0x7f), '9:5'],
  ])('%s', (_, data, expected) => {
    const selects = [control(1, 0, 3), control(2, 32, 9), program(3, 5)];
    const result = heard(presets, [sysex(0, data), ...selects, on(4)]);
    const plainOnes = Object.entries(result).filter(([, sets]) => sets.includes('plain'));
    expect(plainOnes.map(([name]) => name)).toEqual([expected]);
  });

  test('readers of device 0x00 and readers of every device are apart', () => {
    const events = [
      program(0, 5),
      sysex(1, gsReset(0x00)),
      sysex(2, rhythmPart(0x11, 1, 1)),
      on(3),
    ];
    expect(heard(presets, events)).toEqual({
      '0:5': ['plain'],
      '0:0': ['engine'],
      '128:0': ['engine'],
    });
  });

  test('a reset forgets the bank', () => {
    const events = [control(0, 0, 3), sysex(1, gsReset(0x10)), program(2, 5), on(3)];
    expect(heard(presets, events)).toEqual({ '0:5': ['plain'], '3:5': ['engine'] });
  });

  test('a reset makes the tenth channel the only drum channel again', () => {
    const switched = [sysex(0, rhythmPart(0x7f, 1, 1)), sysex(1, rhythmPart(0x7f, 0, 0))];
    const events = [...switched, sysex(2, gsReset(0x7f)), on(3, 0), on(4, 9)];
    expect(heard(presets, events)).toEqual({ '0:0': ['plain'], '128:0': ['plain'] });
  });
});

describe('GS rhythm parts', () => {
  test('the bytes (checksum worked by hand: 0x40 + 0x10 + 0x15 + 0x02 + 0x19 = 128)', () => {
    const data = [0x41, 0x10, 0x42, 0x12, 0x40, 0x10, 0x15, 0x02, 0x19];
    expect(rhythmPart(0x10, 0, 2)).toEqual(data);
  });

  test.each([
    [1, 0],
    [2, 1],
    [9, 8],
    [10, 10],
    [15, 15],
  ])('part %i is channel index %i', (part, channel) => {
    const events = [sysex(0, rhythmPart(0x7f, part, 1)), on(1, channel)];
    expect(heard(presets, events)).toEqual({ '128:0': ['plain'], '0:0': ['engine'] });
  });

  test('part 0 is the tenth channel', () => {
    const events = [sysex(0, rhythmPart(0x7f, 0, 0)), on(1, 9)];
    expect(heard(presets, events)).toEqual({ '0:0': ['plain'], '128:0': ['engine'] });
  });

  test.each<Table[number]>([
    [
      'it selects program 0 at once',
      [program(0, 5), sysex(1, rhythmPart(0x10, 1, 0)), on(2)],
      { '0:0': ['plain'], '0:5': ['engine'] },
    ],
    [
      'a melodic part has its stored bank',
      [control(0, 0, 3), sysex(1, rhythmPart(0x7f, 1, 1)), sysex(2, rhythmPart(0x7f, 1, 0)), on(3)],
      { '3:0': ['plain'], '0:0': ['engine'] },
    ],
    [
      'a drum part ignores bank selects',
      [sysex(0, rhythmPart(0x7f, 1, 2)), control(1, 0, 3), sysex(2, rhythmPart(0x7f, 1, 0)), on(3)],
      { '0:0': ['plain'] },
    ],
    [
      'a drum part stays one',
      [sysex(0, rhythmPart(0x7f, 1, 1)), program(1, 5), on(2)],
      { '128:5': ['plain'], '0:5': ['engine'] },
    ],
    [
      'only in mode gs',
      [sysex(0, gmOn(0x7f)), sysex(1, rhythmPart(0x7f, 1, 1)), on(2)],
      // The reader that starts in gs and obeys nothing hears neither message.
      { '0:0': ['plain'] },
    ],
    [
      'only 0, 1 and 2',
      [program(0, 5), sysex(1, rhythmPart(0x7f, 1, 3)), on(2)],
      { '0:5': ['plain'] },
    ],
    [
      'only with a right checksum',
      [program(0, 5), sysex(1, rhythmPart(0x7f, 1, 1).with(-1, 0)), on(2)],
      { '0:5': ['plain'] },
    ],
    [
      'only for its device',
      [program(0, 5), sysex(1, rhythmPart(0x00, 1, 1)), on(2)],
      { '0:5': ['plain'], '128:0': ['engine'] },
    ],
  ])('%s', (_, events, expected) => {
    expect(heard(presets, events)).toEqual(expected);
  });
});

describe('fallback', () => {
  const melodic = [control(0, 0, 3), program(1, 5), on(2)];
  const drums = [program(0, 5, 9), on(1, 9)];
  // Bank 1 and 0 add up to 128 in mode mma; the other readers find nothing here.
  const addsUp = [control(0, 0, 1), program(1, 5), on(2)];
  test.each<[string[], OracleEvent[], Record<string, string[]>]>([
    [['0:0', '0:5'], melodic, { '0:5': ['plain'] }],
    [['0:0', '3:0'], melodic, { '0:0': ['plain'] }],
    [['3:0', '128:0', '128:5'], melodic, {}],
    [['0:0', '0:5', '128:0', '128:5'], drums, { '128:5': ['plain'] }],
    [['0:0', '0:5', '128:0'], drums, { '128:0': ['plain'] }],
    [['0:0', '0:5'], drums, {}],
    [['128:0'], addsUp, { '128:0': ['engine'] }],
  ])('presets %j, row %#', (names, events, expected) => {
    expect(heard(names, events)).toEqual(expected);
  });

  const wholeBank = (zones: readonly ZonePlan[]) =>
    readBank(
      writeBank({
        presets: [
          { name: 'fallback', bank: 0, program: 0, zones: [zone(instrument(0))] },
          { name: 'no zones', bank: 0, program: 5, zones: [] },
          { name: 'first', bank: 0, program: 5, zones },
          { name: 'second', bank: 0, program: 5, zones: [zone(instrument(2))] },
        ],
        instruments: [0, 1, 2].map((index) => ({ name: `i${index}`, zones: [zone(sample(0))] })),
        samples: [{ name: 'noise' }],
      }),
    );

  test('of two presets with the same numbers the first with zones plays, the other in doubt', () => {
    const result = play(wholeBank([zone(instrument(1))]), [program(0, 5), on(1)]);
    expect(reached(result)).toEqual({ 1: ['plain'], 2: ['engine'] });
    expect([...result.pairs.keys()]).toEqual(['2,1,1', '3,2,2']);
    expect([...result.plainStarts.values()]).toEqual([1]);
  });

  test('a preset that is there but has no zone for the note is silent', () => {
    const low = [zone(keys(0, 59), instrument(1))];
    const onlyTheOther = { 2: ['engine'] };
    expect(reached(play(wholeBank(low), [program(0, 5), on(1)]))).toEqual(onlyTheOther);
    const unusable = [zone(keys(0, 127))];
    expect(reached(play(wholeBank(unusable), [program(0, 5), on(1)]))).toEqual(onlyTheOther);
  });
});

describe('ranges', () => {
  const instrumentZones = [zone(keys(50, 60), velocities(10, 100), sample(0))];
  const presetZones = [zone(keys(60, 70), velocities(100, 127), instrument(0))];
  test.each([
    [60, 100, true],
    [59, 100, false],
    [61, 100, false],
    [60, 99, false],
    [60, 101, false],
  ])('preset and instrument intersect: key %i velocity %i', (key, velocity, expected) => {
    const result = play(zoneProbe(instrumentZones, presetZones), [on(0, 0, key, velocity)]);
    expect(result.zones.has(0)).toBe(expected);
    expect(result.plainStarts.get(`0,${key},${velocity}`)).toBe(expected ? 1 : undefined);
  });

  // Bag 0 is the global zone, bag 1 has no range of its own, bag 2 has both.
  const inside = { 1: ['plain'], 2: ['plain'] };
  const outside = { 1: ['engine'], 2: ['plain'] };
  test.each([
    [60, 64, inside],
    [59, 64, outside],
    [60, 63, outside],
    [59, 63, outside],
  ])('a global range in an instrument: key %i velocity %i', (key, velocity, expected) => {
    const global = zone(keys(60, 127), velocities(64, 127));
    const own = zone(keys(0, 127), velocities(0, 127), sample(0));
    const bank = zoneProbe([global, zone(sample(0)), own]);
    expect(reached(play(bank, [on(0, 0, key, velocity)]))).toEqual(expected);
  });

  test.each([
    [60, 64, ['plain']],
    [59, 64, ['engine']],
    [60, 63, ['engine']],
  ])('a global range in a preset: key %i velocity %i', (key, velocity, expected) => {
    const global = zone(keys(60, 127), velocities(64, 127));
    const bank = zoneProbe([zone(sample(0))], [global, zone(instrument(0))]);
    const result = play(bank, [on(0, 0, key, velocity)]);
    expect(reached(result)).toEqual({ 0: expected });
    expect(result.plainStarts.size).toBe(expected.includes('plain') ? 1 : 0);
  });

  test('each range of a zone stands alone: own keys, inherited velocities', () => {
    const bank = zoneProbe([
      zone(keys(60, 60), velocities(64, 127)),
      zone(keys(0, 127), sample(0)),
    ]);
    expect(reached(play(bank, [on(0, 0, 20, 64)]))).toEqual({ 1: ['plain'] });
    expect(reached(play(bank, [on(0, 0, 20, 63)]))).toEqual({ 1: ['engine'] });
  });

  test('a global range in a preset still meets the range in the instrument', () => {
    const presetGlobal = zone(keys(60, 127));
    const bank = zoneProbe([zone(keys(0, 59), sample(0))], [presetGlobal, zone(instrument(0))]);
    expect(reached(play(bank, [on(0, 0, 60)]))).toEqual({});
    expect(reached(play(bank, [on(0, 0, 59)]))).toEqual({ 0: ['engine'] });
  });

  test('voices are counted by pairs of zones', () => {
    const twoLayers = [zone(instrument(0)), zone(keys(0, 127), instrument(0))];
    const bank = zoneProbe(
      [zone(sample(0)), zone(sample(0)), zone(keys(0, 1), sample(0))],
      twoLayers,
    );
    const result = play(bank, [on(0), on(5), on(6, 1, 60, 1)]);
    expect(Object.fromEntries(result.plainStarts)).toEqual({ '0,60,100': 8, '1,60,1': 4 });
    expect([...result.pairs.keys()]).toEqual(['0,0,0', '0,0,1', '0,1,0', '0,1,1']);
  });
});
