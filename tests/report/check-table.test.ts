import { describe, expect, test } from 'vitest';
import type { Check, Miss, WayOut } from '../../src/keep/check/check.ts';
import { checkTable } from '../../src/report/check-table.ts';
import { plainColors, type Colors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { doubtNames } from '../../src/terms/doubt.ts';
import {
  halfDoneCheck,
  missingCheck,
  missingUnprovedCheck,
  provedCheck,
  unprovedCheck,
} from './fixtures/check.ts';
import { hostileNames } from './fixtures/names.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };
const mib = 2 ** 20;

const microphone = missingCheck.misses[1]!;

/** Names as a stranger's file may hold them, wherever one can stand. */
const hostile: Check = {
  ...missingUnprovedCheck,
  keep: { ...missingCheck.keep, path: hostileNames[0] },
  proof: {
    ...missingUnprovedCheck.proof,
    absent: hostileNames,
    cues: missingUnprovedCheck.proof.cues.map((cue, i) => ({ ...cue, id: hostileNames[i]! })),
    instruments: hostileNames.map((id, i) => ({
      id,
      sha256: '0'.repeat(64),
      state: (['same', 'changed', 'added'] as const)[i % 3]!,
    })),
    settled: [{ doubt: 'order', answer: 'plain', instruments: hostileNames }],
  },
  misses: hostileNames.map((name, i): Miss => ({
    ...microphone,
    unit: i,
    instrument: hostileNames[i % 2]!,
    machine: name,
    copy: name,
    key: i % 2 === 0 ? name : null,
    samples: [name, name],
    articulations: [name],
    cues: { [name]: 4 },
    places: microphone.places.map((place) => ({ ...place, cue: name, trackName: name })),
    bars: [{ cue: name, track: 0, trackName: name, bars: [[1, 2]] }],
    ways: [{ kind: 'articulation', articulation: name, switch: name }],
  })),
  machines: missingCheck.machines.map((machine, i) => ({ ...machine, id: hostileNames[i]! })),
};

/** Forty-three needs of different notes at one instrument. */
const many: Check = {
  ...missingCheck,
  misses: Array.from({ length: 43 }, (_, i): Miss => ({
    ...microphone,
    zone: 100 + i,
    unit: i,
    notes: 43 - i,
    cues: { '2m3 v2': 43 - i },
    ways: [],
  })),
  total: { misses: 43, notes: 946, doubtfulNotes: 0, bytes: 43 * microphone.bytes },
};

/** A step was done by mistake: something is gone that the plan keeps. */
const halfDoneMissing: Check = { ...missingCheck, loaded: halfDoneCheck.loaded };

const goldens = [
  ['check-proved-80', provedCheck, { ...wide, width: 80 }],
  ['check-missing-wide', missingCheck, wide],
  ['check-missing-80', missingCheck, { ...wide, width: 80 }],
  ['check-missing-60-ascii-c3', missingCheck, { ...wide, width: 60, ascii: true, middleC: 3 }],
  ['check-unproved-80', unprovedCheck, { ...wide, width: 80 }],
  ['check-missing-unproved-100', missingUnprovedCheck, { ...wide, width: 100 }],
  ['check-half-done-80', halfDoneCheck, { ...wide, width: 80 }],
  ['check-half-done-missing-100', halfDoneMissing, { ...wide, width: 100 }],
  ['check-hostile-100', hostile, { ...wide, width: 100 }],
] as const;

test.each(goldens)('%s', async (name, which, look) => {
  await expect(checkTable(which, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

const all = [
  ['proved', provedCheck],
  ['missing', missingCheck],
  ['unproved', unprovedCheck],
  ['missing and unproved', missingUnprovedCheck],
  ['half done', halfDoneCheck],
  ['half done and missing', halfDoneMissing],
  ['hostile', hostile],
  ['large', many],
] as const;

describe.each(all)('the %s check', (_, which) => {
  test.each([40, 48, 60, 72, 80, 96, 120, 200])('keeps inside %d columns', (width) => {
    for (const look of [{ ascii: false }, { ascii: true }, { ascii: false, details: true }]) {
      for (const line of checkTable(which, { ...wide, ...look, width }).split('\n')) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    for (const width of [null, 80]) {
      const text = checkTable(which, { ...wide, width, details: true }).replaceAll('\n', '');
      expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
  });

  test('says nothing by colour alone', () => {
    const paint = (text: string): string => `\u001b[1m${text}\u001b[0m`;
    const colors: Colors = {
      ...{ bold: paint, dim: paint, red: paint },
      ...{ green: paint, yellow: paint, cyan: paint },
    };
    const colored = checkTable(which, { ...wide, colors, width: 80 });
    expect(colored).toContain('\u001b');
    expect(colored.replace(/\u001b\[\dm/gu, '')).toBe(checkTable(which, { ...wide, width: 80 }));
  });
});

test('in ASCII the report itself is ASCII', () => {
  for (const width of [null, 80, 40]) {
    for (const which of [provedCheck, missingUnprovedCheck, many]) {
      expect(checkTable(which, { ...wide, ascii: true, width })).toMatch(/^[\x20-\x7e\n]*$/u);
    }
  }
});

const linesOf = (which: Check, look = wide): readonly string[] =>
  checkTable(which, look).split('\n');

const withMisses = (misses: readonly Miss[], bytes?: number): Check => ({
  ...missingCheck,
  misses,
  total: {
    misses: misses.length,
    notes: misses.reduce((sum, { notes }) => sum + notes, 0),
    doubtfulNotes: 0,
    bytes: bytes ?? misses.reduce((sum, miss) => sum + miss.bytes, 0),
  },
});

describe('the first line is the answer', () => {
  const inCues = (...ids: readonly string[]): Miss => ({
    ...microphone,
    cues: Object.fromEntries(ids.map((id) => [id, 1])),
  });
  test.each<readonly [string, Check]>([
    ['PROVED: no cue needs anything that was dropped.', provedCheck],
    [
      'MISSING: 2m3 v2 needs 1 zone that was dropped (4.50 MiB to load again).',
      withMisses([microphone]),
    ],
    [
      'MISSING: 1m1 and 2m3 v2 need 2 zones that were dropped (9.00 MiB to load again).',
      withMisses([inCues('2m3 v2'), inCues('1m1')]),
    ],
    [
      'MISSING: 1m1, 1m2 and 2m3 v2 need 1 zone that was dropped (4.50 MiB to load again).',
      withMisses([inCues('2m3 v2', '1m1', '1m2')]),
    ],
    [
      'MISSING: 4 cues need 1 zone that was dropped (4.50 MiB to load again).',
      withMisses([inCues('2m3 v2', '1m1', '1m2', '9m9')]),
    ],
    [
      'MISSING: 2m3 v2 may need 1 zone that was dropped (4.50 MiB to load again).',
      withMisses([{ ...microphone, doubts: [['order']] }]),
    ],
    ['MISSING: 2m3 v2 needs 1 zone that was dropped.', withMisses([{ ...microphone, bytes: 0 }])],
    [
      'NOT PROVED: nothing that was dropped is asked for as far as can be seen, but 4 things stand against a proof.',
      unprovedCheck,
    ],
    [
      'NOT PROVED: nothing that was dropped is asked for as far as can be seen, but one thing stands against a proof.',
      { ...unprovedCheck, open: ['cue-damaged'] },
    ],
  ])('%s', (line, which) => {
    expect(linesOf(which)[0]).toBe(line);
  });

  test('what is missing and what could not be compared are both said', () => {
    expect(linesOf(missingUnprovedCheck).slice(0, 3)).toEqual([
      'MISSING: 1m2 and 2m3 v2 need 7 zones that were dropped (31.0 MiB to load again).',
      '10 006 notes ask for them. Of the zones 1 is in doubt.',
      '! More may be missing: not everything could be compared.',
    ]);
  });
});

describe('what stands against a proof', () => {
  const reasons = (which: Check, look = wide): readonly string[] => {
    const lines = linesOf(which, look);
    const from = lines.indexOf('What stands against a proof');
    return from < 0 ? [] : lines.slice(from + 1, lines.indexOf('', from));
  };

  test('every open code in a sentence, and no remark that is none', () => {
    const text = reasons(unprovedCheck);
    expect(text).toHaveLength(7);
    expect(text[0]).toContain('cues/2m3 v2.mid: In cue 2m3 v2 no rule takes 40 notes');
    expect(text[1]).toContain('low-strings is not the one that the keep file speaks of');
    expect(text[2]).toContain('The cues play tuba');
    expect(text.join()).not.toContain('4m1');
  });

  test('what is alike is cut short, unless all is asked for', () => {
    expect(reasons(unprovedCheck).at(-1)).toBe('- And 2 more of this kind (cue-damaged).');
    expect(reasons(unprovedCheck, { ...wide, details: true })).toHaveLength(8);
  });

  test('a code without a finding is said as it is', () => {
    expect(reasons({ ...unprovedCheck, findings: [], open: ['cue-looks-partial'] })).toEqual([
      '- cue-looks-partial.',
    ]);
  });

  test('nothing where nothing does', () => {
    expect(reasons(missingCheck)).toEqual([]);
  });
});

describe('what was checked', () => {
  test('cues with what became of them, instruments, routes and the user’s own word', () => {
    const lines = linesOf(provedCheck);
    expect(lines).toContain('What is proved');
    expect(lines).toContain(
      '- 3 cues with 1 806 notes. Changed since the plan: 2m3 v2. As they were in the plan: 1m1, 1m2.',
    );
    expect(lines).toContain(
      '- 3 instruments: low-strings, horns, hand-drums. Their definitions are as in the plan.',
    );
    expect(lines).toContain('- Routes and players are those of the plan.');
    expect(lines).toContain(
      '- On your word: how fast players follow a controller (doubt smoothing) is settled as plain for low-strings.',
    );
    expect(lines).toContain(
      '- On your word: if layers that enter late are heard (doubt tail) is accepted everywhere.',
    );
  });

  test('without a template nothing is said of routes', () => {
    const text = checkTable(
      { ...provedCheck, proof: { ...provedCheck.proof, template: 'none' } },
      wide,
    );
    expect(text).not.toContain('Routes');
    expect(text).not.toContain('template is not');
  });

  test('what was not checked is named', () => {
    expect(checkTable(missingCheck, wide)).toContain('! Not checked: 1m4, 2m1.');
    expect(checkTable(unprovedCheck, wide)).toContain('! Damaged: 1m1.');
    expect(checkTable(unprovedCheck, wide)).toContain('! Not readable: 1m2.');
    expect(checkTable(provedCheck, wide)).not.toContain('!');
  });
});

describe('blocks', () => {
  const blocks = (which: Check, look = wide): readonly string[] =>
    linesOf(which, look).filter((line) => /^\d+\. /.test(line));

  test('zones that the same notes ask for are one, with their sum', () => {
    expect(blocks(missingCheck)).toEqual([
      '1. sustain: one zone, 12.0 MiB',
      '1. sustain: 4 zones, 18.0 MiB',
      '1. No articulation, copy Drum 2: one zone, without samples',
      '2. slap, copy Drum 2: one zone, 1.00 MiB',
    ]);
  });

  const apart: readonly Partial<Miss>[] = [
    { copy: 'Hn 2' },
    { silent: true },
    { doubts: [['order']] },
    { notes: 5 },
    { doubtfulNotes: 1 },
    { cues: { '2m3 v2': 3, '1m1': 1 } },
    { keys: [[60, 61]] },
    { velocities: [110, 113] },
    { places: microphone.places.slice(1) },
  ];
  test.each(apart)('other notes, or asked for otherwise, are another: %j', (change) => {
    const other = { ...microphone, zone: 99, unit: microphone.unit + 1, ...change };
    expect(blocks(withMisses([microphone, other]))).toHaveLength(2);
  });

  test('zones that share what they load add up to no more than there is', () => {
    const two = [microphone, { ...microphone, zone: 99, unit: 7 }];
    const other = { ...microphone, zone: 100, unit: 8, notes: 1 };
    expect(blocks(withMisses(two, 6 * mib))).toEqual(['1. sustain: 2 zones, 6.00 MiB']);
    expect(blocks(withMisses([...two, other], 6 * mib))).toEqual([
      '1. sustain: 2 zones, at most 6.00 MiB',
      '2. sustain: one zone, 4.50 MiB',
    ]);
    expect(blocks(withMisses([...two, other]))[0]).toBe('1. sustain: 2 zones, 9.00 MiB');
  });

  test('zones that load together have one figure, and say what else they bring back', () => {
    const together = [microphone, { ...microphone, zone: 99 }];
    const other = { ...microphone, zone: 100, notes: 1, ways: [] };
    const apart = { ...microphone, zone: 101, unit: 5, notes: 900, bytes: mib };
    const which = withMisses([...together, other, apart], microphone.bytes + mib);
    expect(blocks(which)).toEqual([
      '1. sustain: one zone, 1.00 MiB',
      '2. sustain: 2 zones, 4.50 MiB',
      '3. sustain: one zone, 4.50 MiB',
    ]);
    const ways = linesOf(which).filter((line) => line.includes('load it again'));
    expect(ways.map((line) => line.replace(/^.*load it again/u, '').replace(/:.*/u, ''))).toEqual([
      '',
      ' (it brings one more zone of these back',
      ' (it brings 2 more zones of these back',
    ]);
  });

  test('zones of one unit that the same ways help are one matter, whoever asks', () => {
    const key = microphone.keys[0]![0];
    const other = {
      ...microphone,
      ...{ zone: 99, notes: 2, keys: [[key + 2, key + 3]] as const, velocities: [1, 9] as const },
    };
    const which = withMisses([microphone, other]);
    expect(blocks(which)).toEqual(['1. sustain: 2 zones, 4.50 MiB']);
    const [asked] = linesOf(which).filter((line) => line.startsWith('   Asked for'));
    expect(asked).toContain(`${String(microphone.notes + 2)} notes`);
    expect(asked).toContain(String(key));
    expect(asked).toContain(`velocities 1-${String(microphone.velocities![1])}`);
  });

  test('what asks is a note, a controller, or what cuts others short', () => {
    const asks = (change: Partial<Miss>): string =>
      linesOf(withMisses([{ ...microphone, ...change }])).find((line) =>
        line.startsWith('   Asked for'),
      ) ?? '';
    expect(asks({ notes: 1, cues: { '1m1': 1 } })).toBe('   Asked for by 1 note in 1m1');
    const controller = { keys: [], velocities: null, notes: 5, cues: { '1m1': 5 } };
    expect(asks(controller)).toBe('   Asked for by a controller, 5 times in 1m1; the first');
    expect(
      asks({ notes: 0, cues: { '1m1': 0, '1m2': 0 }, keys: [[60, 60]], velocities: [9, 9] }),
    ).toBe(
      '   Asked for by notes that cut others short (1m1, 1m2): C4 (60), velocity 9; the first',
    );
    const cues = Object.fromEntries(['a', 'b', 'c', 'd', 'e', 'f'].map((id) => [id, 2]));
    expect(asks({ notes: 12, cues })).toContain('(a: 2, b: 2, c: 2, d: 2 and 2 more cues)');
  });

  test('notes that ask only in doubt are told apart', () => {
    expect(linesOf(withMisses([microphone])).join()).not.toContain('only in doubt');
    expect(linesOf(withMisses([{ ...microphone, doubtfulNotes: 12 }]))).toContain(
      '   12 more notes ask for it only in doubt.',
    );
  });

  test('ten thousand hits are one line and the first places', () => {
    const lines = linesOf(withMisses([missingCheck.misses[0]!]));
    const at = lines.findIndex((line) => line.startsWith('   Asked for by'));
    expect(lines.slice(at, at + 5)).toEqual([
      '   Asked for by 10 000 notes (1m2: 2, 2m3 v2: 9 998): C2-E2 (36-40), G2 (43), velocity 64; the first',
      '   - 1m2, bar 4 beat 1 (0:08), track 2: C2 (36), velocity 64',
      '   - 1m2, bar 5 beat 1 (0:10), track 2: G2 (43), velocity 64',
      '   - 2m3 v2, bar 1 beat 1 (0:00, 01:00:10:00), Vc: C2 (36), velocity 64',
      '   12 more notes ask for it only in doubt.',
    ]);
  });

  test('twelve for an instrument, the gravest first; then how many more there are', () => {
    expect(blocks(many)).toHaveLength(12);
    expect(linesOf(many)).toContain(
      '   Asked for by 43 notes in 2m3 v2: C4-D4 (60-62), velocities 111-113; the first',
    );
    expect(linesOf(many)).toContain(
      'And 31 more zones: --verbose shows them too, and --format csv has a row for each.',
    );
    expect(blocks(many, { ...wide, details: true })).toHaveLength(43);
    expect(checkTable(many, { ...wide, details: true })).not.toContain('31 more');
  });

  test('what is certain stands before what is in doubt', () => {
    const doubtful: Miss = {
      ...microphone,
      articulations: ['doubtful'],
      doubts: [['order']],
      notes: 900,
    };
    const certain: Miss = { ...microphone, articulations: ['certain'], zone: 99 };
    expect(blocks(withMisses([doubtful, certain])).map((line) => line.split(':')[0])).toEqual([
      '1. certain',
      '2. doubtful',
    ]);
  });

  test('each doubt in words', () => {
    for (const doubt of doubtNames) {
      expect(checkTable(withMisses([{ ...microphone, doubts: [[doubt]] }]), wide)).toMatch(
        new RegExp(`Only in doubt: it depends on [a-z].*\\(${doubt}\\)\\.`, 'u'),
      );
    }
    expect(checkTable(withMisses([microphone]), wide)).not.toContain('Only in doubt');
  });
});

describe('ways out', () => {
  const waysOf = (misses: readonly Miss[], change: Partial<Check> = {}): readonly string[] => {
    const lines = linesOf({ ...withMisses(misses), ...change });
    const from = lines.indexOf('   Ways out');
    return lines.slice(from + 1, lines.indexOf('', from)).map((line) => line.replace('   - ', ''));
  };
  const withWay = (...ways: readonly WayOut[]): readonly string[] =>
    waysOf([{ ...microphone, bars: [], ways }]).slice(1);

  test.each<readonly [string, WayOut]>([
    [
      'lower velocity 113 to 110 at C4 (60), 1 note',
      { kind: 'velocity', changes: [{ key: 60, from: 113, to: 110, notes: 1 }] },
    ],
    [
      'lower velocity 111-112 to 110 at C4-C#4 (60-61), 5 notes; and raise velocity 20 to 64 at E4 (64), 1 200 notes',
      {
        kind: 'velocity',
        changes: [
          { key: 64, from: 20, to: 64, notes: 1_200 },
          { key: 60, from: 111, to: 110, notes: 2 },
          { key: 61, from: 112, to: 110, notes: 3 },
        ],
      },
    ],
    [
      'controller 1 at 96 or below (it goes up to 101)',
      { kind: 'controller', number: 1, limit: 'at-most', from: 101, to: 96 },
    ],
    [
      'controller 11 at 64 or above (it goes down to 10)',
      { kind: 'controller', number: 11, limit: 'at-least', from: 10, to: 64 },
    ],
    [
      'another articulation: marcato, chosen by C0 (12)',
      { kind: 'articulation', articulation: 'marcato', switch: 'C0 (12)' },
    ],
    [
      'another articulation: marcato',
      { kind: 'articulation', articulation: 'marcato', switch: null },
    ],
  ])('%s', (line, way) => {
    expect(withWay(way)).toEqual([line]);
  });

  test('of several zones only what helps all of them', () => {
    const one: WayOut = { kind: 'controller', number: 1, limit: 'at-most', from: 101, to: 96 };
    const two: WayOut = { ...one, to: 80 };
    const misses = [
      { ...microphone, bars: [], ways: [one, two] },
      { ...microphone, bars: [], zone: 99, ways: [two] },
    ];
    expect(waysOf(misses).slice(1)).toEqual(['controller 1 at 80 or below (it goes up to 101)']);
  });

  test('bars to print: of several zones together, by track', () => {
    const bars = (...ranges: Miss['bars'][number]['bars']): Miss['bars'] => [
      { ...microphone.bars[0]!, bars: ranges },
    ];
    const misses = [
      { ...microphone, ways: [], bars: bars([4, 4], [9, 12]) },
      { ...microphone, ways: [], zone: 99, bars: bars([5, 6], [10, 14]) },
    ];
    expect(waysOf(misses).slice(1)).toEqual(['print as audio: 2m3 v2, Hn 1: bars 4-6, 9-14']);
    expect(waysOf([{ ...microphone, ways: [], bars: bars([7, 7]) }]).at(-1)).toBe(
      'print as audio: 2m3 v2, Hn 1: bar 7',
    );
    const tracks = Array.from({ length: 8 }, (_, track) => ({
      ...bars([1, 1])[0]!,
      track,
      trackName: null,
    }));
    expect(waysOf([{ ...microphone, ways: [], bars: tracks }]).at(-1)).toMatch(
      /track 5: bar 1; and 2 more tracks$/u,
    );
  });

  const machine = missingCheck.machines[1]!;
  test.each<readonly [string, boolean | null, boolean | null, number]>([
    ['machine b still fits', true, true, 1],
    ['machine b still fits', true, true, 2],
    ['machine b then DOES NOT FIT any more', false, false, 1],
    ['machine b fits with this, but not with all that is missing', true, false, 1],
    ['machine b fits with any one of them, but not with all that is missing', true, false, 2],
    ['no memory budget is given for machine b', null, null, 1],
  ])('%s: alone %s, with all %s, %d zones', (words, alone, together, count) => {
    const misses = Array.from({ length: count }, (_, i) => ({
      ...microphone,
      zone: i,
      unit: i,
      fits: alone,
    }));
    const load = count === 1 ? '4.50 MiB' : '9.00 MiB';
    expect(waysOf(misses, { machines: [{ ...machine, fits: together }] })[0]).toBe(
      `load it again: ${load}; ${words}`,
    );
  });

  test('what has no samples needs no memory', () => {
    expect(waysOf([missingCheck.misses.at(-1)!])).toEqual(['load it again: it needs no memory']);
  });
});

test('machines with all that is missing: only where something is', () => {
  const machines = linesOf(missingCheck).filter((line) => /^[ab] {3,}/u.test(line));
  expect(machines.map((line) => line.split(/ {2,}/u))).toEqual([
    // 1.95 GiB and 12 MiB more; 1.2 GiB and 19 MiB more, in MiB.
    ['a', '1 996.8', '2 008.8', '1 904.6-2 109.4', '53 248.0', 'fits'],
    ['b', '1 228.8', '1 247.8', '1 239.0', 'DOES NOT FIT'],
  ]);
  expect(checkTable(provedCheck, wide)).not.toContain('Machine');
  const [first] = missingCheck.machines;
  const open = { ...missingCheck, machines: [{ ...first!, budget: null, fits: null }] };
  expect(checkTable(open, wide)).toMatch(/ - +no budget given$/mu);
  const near = { ...first!, budget: 2_000 * mib + 10 * mib, fits: false };
  expect(checkTable({ ...missingCheck, machines: [near] }, wide)).toContain(' MAY NOT FIT\n');
});

test('what to do next fits the answer', () => {
  const next = (which: Check): string => checkTable(which, wide).split('What to do next\n')[1]!;
  expect(next(provedCheck)).toMatch(/^- Nothing: what keep\.json keeps is enough/u);
  expect(next(missingCheck)).toMatch(/^- Load again what is listed here/u);
  expect(next(missingCheck)).toContain('keepset diff keep.json');
  expect(next(missingCheck)).not.toContain('Clear up');
  expect(next(unprovedCheck)).toMatch(/^- Clear up what stands against a proof/u);
  expect(next(missingUnprovedCheck)).toContain('Clear up what stands against a proof');
  for (const [, which] of all) expect(next(which)).toContain('Keep the full template');
});
