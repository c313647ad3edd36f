import { describe, expect, test } from 'vitest';
import type { ReelMemory } from '../../src/keep/reel/reel-memory.ts';
import { plainColors, type Colors } from '../../src/report/colors.ts';
import { memoryTable, type MemoryLook } from '../../src/report/memory-table.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import {
  comparedMemory,
  cueMemory,
  fittingGroups,
  groupedMemory,
  nothingNeeded,
  placedMemory,
  reelMemory,
  singleMemory,
} from './fixtures/memory.ts';
import { hostileNames } from './fixtures/names.ts';

const wide: MemoryLook = { colors: plainColors, ascii: false, width: null, by: 'machine' };
const at80: MemoryLook = { ...wide, width: 80 };

/** All that may be asked for at once. */
const whole: ReelMemory = {
  ...groupedMemory,
  cue: cueMemory.cue,
  placement: placedMemory.placement,
  comparison: comparedMemory.comparison,
};

/** What a grain is called is no name. */
const grains = ['sample', 'layer'];

/** Every name in it as a stranger's file may hold it. */
const hostileOf = <T>(value: T): T => {
  const names = new Set([
    'id',
    'machine',
    'instrument',
    'copy',
    'player',
    'from',
    'to',
    'cue',
    'file',
  ]);
  const known = new Map<string, string>();
  const rename = (name: string): string => {
    if (grains.includes(name)) return name;
    const own = known.get(name) ?? hostileNames[known.size % hostileNames.length]!;
    known.set(name, own);
    return own;
  };
  const change = (one: unknown, key = ''): unknown => {
    if (typeof one === 'string') return names.has(key) || key === 'text' ? rename(one) : one;
    if (Array.isArray(one)) {
      return one.map((item) =>
        key === 'cues' && typeof item === 'string' ? rename(item) : change(item, key),
      );
    }
    if (typeof one !== 'object' || one === null) return one;
    return Object.fromEntries(
      Object.entries(one).map(([name, item]) => [name, change(item, name)]),
    );
  };
  return change(value) as T;
};

const goldens = [
  ['memory-wide', reelMemory, wide],
  ['memory-80', reelMemory, at80],
  ['memory-60-ascii', reelMemory, { ...at80, width: 60, ascii: true }],
  ['memory-instruments-80', reelMemory, { ...at80, by: 'instrument' }],
  ['memory-instruments-wide', reelMemory, { ...wide, by: 'instrument' }],
  ['memory-groups-100', groupedMemory, { ...at80, width: 100 }],
  ['memory-cue-120', cueMemory, { ...at80, width: 120 }],
  ['memory-cue-80', cueMemory, at80],
  ['memory-placed-80', placedMemory, at80],
  ['memory-compared-80', comparedMemory, at80],
  ['memory-single-80', singleMemory, at80],
  ['memory-nothing-80', nothingNeeded, at80],
  ['memory-hostile-100', hostileOf(whole), { ...at80, width: 100 }],
] as const satisfies readonly (readonly [string, ReelMemory, MemoryLook])[];

test.each(goldens)('%s', async (name, memory, look) => {
  await expect(memoryTable(memory, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe('in any width', () => {
  const all = [reelMemory, singleMemory, fittingGroups, whole, { ...whole, cue: null }];
  const cases = all.flatMap((memory) =>
    [60, 80, 100, 120].flatMap((width) =>
      (['machine', 'instrument'] as const).map((by) => [width, by, memory] as const),
    ),
  );
  test.each(cases)('of %i columns, by %s, no line is longer', (width, by, memory) => {
    for (const ascii of [true, false]) {
      const text = memoryTable(memory, { ...wide, width, by, ascii });
      // Lines to be copied stay whole.
      const lines = text.split('\n').filter((line) => !/^per-copy|source: /u.test(line));
      for (const line of lines) expect(displayWidth(line)).toBeLessThanOrEqual(width);
    }
  });
});

test('nothing but ASCII where it is asked for', () => {
  for (const by of ['machine', 'instrument'] as const) {
    expect(memoryTable(whole, { ...at80, ascii: true, by })).toMatch(/^[\n\x20-\x7e]*$/u);
    expect(memoryTable(reelMemory, { ...at80, ascii: true, by })).toMatch(/^[\n\x20-\x7e]*$/u);
  }
});

test('no name acts on the terminal', () => {
  for (const memory of [hostileOf(whole), hostileOf({ ...whole, cue: null })]) {
    for (const by of ['machine', 'instrument'] as const) {
      expect(memoryTable(memory, { ...wide, by })).not.toMatch(/[^\P{Cc}\n]|\p{Cf}/u);
    }
  }
});

test('colours change no letter', () => {
  const mark = (text: string): string => `\u0001${text}\u0002`;
  const colors: Colors = {
    ...{ bold: mark, dim: mark, red: mark, green: mark, yellow: mark, cyan: mark },
  };
  const painted = memoryTable(whole, { ...wide, colors });
  expect(painted).toContain('\u0001');
  const plain = painted.replaceAll(/[\u0001\u0002]/gu, '').replaceAll(/ +$/gmu, '');
  expect(plain).toBe(memoryTable(whole, wide));
});

describe('what is said', () => {
  const flat = (memory: ReelMemory, by: MemoryLook['by'] = 'machine'): string =>
    memoryTable(memory, { ...wide, by });

  test('the bar is the first column to go', () => {
    const narrow = memoryTable(reelMemory, { ...at80, width: 58 });
    expect(flat(reelMemory)).toContain('Of the budget');
    expect(narrow).not.toContain('Of the budget');
    expect(narrow).toContain('Not shown in this width: of the budget');
    expect(narrow).toContain('May go');
  });

  test('every cue has a column by instrument, in whatever table', () => {
    const text = memoryTable(reelMemory, { ...at80, by: 'instrument' });
    for (const { id } of reelMemory.cues) expect(text.split(id).length).toBeGreaterThan(2);
    expect(text).not.toContain('Not shown');
  });

  test('at most three ways of a kind, those that suffice first', () => {
    const text = flat(reelMemory);
    expect(text).not.toContain('start-state');
    expect(text.indexOf('order as plain')).toBeLessThan(text.indexOf('tail as plain: 4.0'));
    expect(memoryTable(reelMemory, { ...wide, details: true })).toContain('start-state');
  });

  test('where no way is enough, groups are pointed to', () => {
    const machines = reelMemory.machines.map((one) => ({
      ...one,
      ways: one.ways.map((way) => ({ ...way, fits: false })),
    }));
    expect(flat({ ...reelMemory, machines })).toContain(
      'None of these is enough alone: take several, or load the cues in groups (--groups).',
    );
    expect(flat(reelMemory)).not.toContain('None of these');
    const none = machines.map((one) => ({ ...one, ways: [] }));
    expect(flat({ ...reelMemory, machines: none })).toContain(
      'Nothing was found that would free memory there: load the cues in groups (--groups).',
    );
  });

  test('a machine that may not fit is marked as such', () => {
    const machines = (budget: number): ReelMemory['machines'] =>
      reelMemory.machines.map((one) => (one.id === 'a' ? { ...one, budget, fits: false } : one));
    const text = flat({ ...reelMemory, machines: machines(880 * 2 ** 20) });
    expect(text).toContain('Machine a MAY NOT FIT');
    expect(text).toMatch(/^All cues at once .*! may be over$/mu);
  });

  test('groups that fit need no room, and their largest is what has to fit', () => {
    const text = flat(fittingGroups);
    expect(text).not.toContain('What would make room');
    expect(text).not.toContain('DOES NOT FIT');
    expect(text).toContain('The reel can be loaded in 3 groups: 622 MiB to load at the 2 changes.');
    expect(flat(groupedMemory)).toContain('! 2m2 does not fit even alone: 594 MiB missing');
  });

  test.each([
    ['fits', 'Nothing has to move'],
    ['impossible', 'No placement fits'],
    ['open', 'there may still be one'],
  ] as const)('placement %s', (state, words) => {
    const placement = { ...placedMemory.placement!, state, moves: [], lines: [] };
    const text = flat({ ...reelMemory, placement });
    expect(text).toContain(words);
    expect(text).not.toContain('keepset moves nothing');
  });

  test('what is not worth a change of the template is not offered', () => {
    const comparison = {
      ...comparedMemory.comparison!,
      players: comparedMemory.comparison!.players.map((one) => ({
        ...one,
        worstAfter: one.worstBefore,
      })),
    };
    expect(flat(comparedMemory)).toContain(
      '\nper-copy: 12345678 B\nper-zone: 204 B\nfactor: 0.931\n',
    );
    expect(flat({ ...comparedMemory, comparison })).not.toContain('per-copy:');
  });

  test('what was not read is not left for the small print', () => {
    const cues = reelMemory.cues.map((cue, i) => ({
      ...cue,
      state: (['damaged', 'unreadable', 'read'] as const)[i] ?? 'read',
    }));
    const settings = { ...reelMemory.settings, without: ['9m9'] };
    const text = flat({ ...reelMemory, cues, settings });
    expect(text).toContain('! Damaged: 1m1.');
    expect(text).toContain('! Not readable: 1m2.');
    expect(text).toContain('! Left out on request: 9m9.');
  });

  test('without cues there is nothing to show but that', () => {
    const text = flat({ ...reelMemory, cues: [], machines: [], instruments: [] });
    expect(text).toContain('There is no cue');
    expect(text).not.toContain('Cue  ');
  });
});
