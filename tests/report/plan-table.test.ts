import { describe, expect, test } from 'vitest';
import type { Plan, PlanInstrument } from '../../src/keep/plan.ts';
import { plainColors, type Colors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { planTable } from '../../src/report/plan-table.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { doubtNames } from '../../src/terms/doubt.ts';
import { hostileNames } from './fixtures/names.ts';
import { instrument, plan } from './fixtures/plan.ts';
import { largePlan, templatePlan } from './fixtures/template-plan.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };

/** A reel in trouble: cues damaged, unreadable and left out, two machines of which one is too small. */
const troubled: Plan = {
  ...plan,
  settings: { ...plan.settings, without: ['9m9 Temp'] },
  cues: plan.cues.map((cue, i) => ({
    ...cue,
    state: (['damaged', 'unreadable', 'read'] as const)[i] ?? 'read',
  })),
  instruments: [
    {
      ...instrument,
      machine: 'a',
      bytes: { ...instrument.bytes, reached: 40_000_000, low: 43_000_000, high: 60_000_000 },
    },
    {
      ...instrument,
      id: 'low-strings',
      source: 'instruments/low strings.sf2#0:48',
      machine: 'b',
      zones: 96,
      zonesKept: 96,
      articulations: instrument.articulations.slice(1, 2).map((each) => ({
        ...each,
        zonesKept: each.zones,
        bytes: { full: 42_047_897, kept: 42_047_897 },
      })),
      bytes: {
        ...instrument.bytes,
        full: 42_047_897,
        reached: 42_047_897,
        kept: 42_047_897,
        low: 42_047_897,
        high: 42_047_897,
        unknownSamples: 0,
      },
    },
  ],
  machines: [
    {
      id: 'a',
      budget: 64 * 2 ** 20,
      bytes: { full: 137_363_456, kept: 43_515_904, low: 43_000_000, high: 60_000_000 },
      fits: true,
    },
    {
      id: 'b',
      budget: 32 * 2 ** 20,
      bytes: { full: 42_047_897, kept: 42_047_897, low: 42_047_897, high: 42_047_897 },
      fits: false,
    },
  ],
};

/** Names as a stranger's file may hold them. */
const hostile: Plan = {
  ...plan,
  cues: plan.cues.map((cue, i) => ({ ...cue, id: hostileNames[i] ?? '', state: 'damaged' })),
  instruments: [
    {
      ...instrument,
      id: 'x\u001b[2J',
      source: '../\u202e2fs.sf2',
      articulations: hostileNames.map((name, i) => ({
        ...(instrument.articulations[i % 4] ?? (instrument.articulations[0] as never)),
        name,
      })),
    },
  ],
};

const hostileTemplate: Plan = {
  ...templatePlan,
  settings: {
    ...templatePlan.settings,
    pins: hostileNames.map((name) => ({
      instrument: name,
      articulation: name,
      keys: null,
      velocities: null,
    })),
  },
  allowances: {
    ...templatePlan.allowances,
    pins: hostileNames.map(() => ({ zones: 1, bytes: 4_096 })),
  },
  machines: templatePlan.machines.map((machine, i) => ({ ...machine, id: hostileNames[i] ?? '' })),
  instruments: templatePlan.instruments.map((one, i) => ({
    ...one,
    id: hostileNames[i] ?? '',
    player: hostileNames.at(-i) ?? '',
    machine: hostileNames[i % 2] ?? '',
    copies: one.copies.map((copy, j) => ({ ...copy, name: hostileNames[j] ?? '' })),
  })),
};

const goldens = [
  ['plan-wide', plan, wide],
  ['plan-80', plan, { ...wide, width: 80 }],
  ['plan-60-ascii', plan, { ...wide, width: 60, ascii: true }],
  ['plan-wide-ascii-c3', plan, { ...wide, ascii: true, middleC: 3 }],
  ['plan-troubled-80', troubled, { ...wide, width: 80 }],
  ['plan-hostile-100', hostile, { ...wide, width: 100 }],
  ['template-wide', templatePlan, wide],
  ['template-80', templatePlan, { ...wide, width: 80 }],
  ['template-60-ascii', templatePlan, { ...wide, width: 60, ascii: true }],
  ['template-hostile-100', hostileTemplate, { ...wide, width: 100 }],
  ['template-large-100', largePlan, { ...wide, width: 100 }],
] as const;

test.each(goldens)('%s', async (name, which, look) => {
  await expect(planTable(which, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe.each([
  ['plain', plan],
  ['troubled', troubled],
  ['hostile', hostile],
  ['template', templatePlan],
  ['hostile template', hostileTemplate],
  ['large template', largePlan],
] as const)('the %s plan', (_, which) => {
  test.each([40, 48, 60, 72, 80, 96, 100, 120, 160, 200])('keeps inside %d columns', (width) => {
    for (const ascii of [false, true]) {
      const lines = planTable(which, { ...wide, ascii, width }).split('\n');
      for (const line of lines) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    for (const width of [null, 80]) {
      const text = planTable(which, { ...wide, width }).replaceAll('\n', '');
      expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
  });
});

test('in ASCII the report itself is ASCII', () => {
  for (const width of [null, 80, 40]) {
    expect(planTable(troubled, { ...wide, ascii: true, width })).toMatch(/^[\x20-\x7e\n]*$/u);
  }
});

test('with the colours taken out the report is the same: none of them says anything alone', () => {
  const paint = (text: string): string => `\u001b[1m${text}\u001b[0m`;
  const colors: Colors = {
    bold: paint,
    dim: paint,
    red: paint,
    green: paint,
    yellow: paint,
    cyan: paint,
  };
  for (const width of [null, 80]) {
    const colored = planTable(troubled, { ...wide, colors, width });
    expect(colored).toContain('\u001b');
    expect(colored.replace(/\u001b\[\dm/gu, '')).toBe(planTable(troubled, { ...wide, width }));
  }
});

const withTotal = (total: Partial<Plan['total']>, rest: Partial<Plan> = {}): string =>
  planTable({ ...plan, ...rest, total: { ...plan.total, ...total } }, wide);

test('the answer is the first line', () => {
  expect(withTotal({}).split('\n')[0]).toBe(
    'Keep 112 of 518 zones: 41.5 MiB of 131 MiB; 89.5 MiB saved (68 %).',
  );
  expect(withTotal({ zonesKept: 518 }).split('\n')[0]).toBe(
    'Keep all 518 zones: 41.5 MiB; nothing can be unloaded.',
  );
  expect(withTotal({ zones: 0, zonesKept: 0 }).split('\n')[0]).toBe('There are no zones to keep.');
});

test('what a machine needs is a range only where its ends read differently', () => {
  const mib = 2 ** 20;
  const needed = (low: number, high: number): string =>
    planTable(
      {
        ...templatePlan,
        machines: templatePlan.machines.map((one) => ({
          ...one,
          bytes: { ...one.bytes, low, kept: high, high },
          budget: 100 * mib,
          fits: true,
        })),
      },
      wide,
    );
  expect(needed(57.2 * mib, 57.2 * mib + 4096)).toContain(' fits: 57.2 MiB needed, 100 MiB there,');
  expect(needed(57.2 * mib, 57.4 * mib)).toContain(' fits: 57.2 MiB to 57.4 MiB needed,');
});

const rowOf = (text: string, begins: string): string =>
  text.split('\n').find((line) => line.startsWith(begins)) ?? '';

const withArticulations = (
  articulations: PlanInstrument['articulations'],
  source = instrument.source,
): string => planTable({ ...plan, instruments: [{ ...instrument, articulations, source }] }, wide);

test('what is never played is one row, whatever shares its samples', () => {
  const never = instrument.articulations.filter(({ zonesKept }) => zonesKept === 0);
  expect(rowOf(withArticulations(never), '3 presets never played')).toMatch(
    / 0\/3 +0\/260 +0 +55\.7 +55\.7$/u,
  );
  // Four times the same samples are more than the instrument holds: never more than there is.
  const shared = [...never, ...never, ...never, ...never];
  expect(rowOf(withArticulations(shared), '12 presets never played')).toMatch(
    / 0\/12 +0\/1 040 +0 +≤ 131\.0 +≤ 89\.5$/u,
  );
});

test('what is kept without a note says so in words', () => {
  expect(rowOf(planTable(plan, wide), '0:60 Foghorns')).toMatch(/ none +kept to be safe /u);
});

test('only a SoundFont has presets', () => {
  expect(withArticulations(instrument.articulations)).toContain('3 presets never played');
  expect(withArticulations(instrument.articulations, 'strings.sfz')).toContain(
    '3 articulations never played',
  );
});

test('an instrument without articulations is its sum', () => {
  expect(withArticulations([])).toContain('Whole instrument');
});

test('doubts: open ones first, the dearest on top; answered ones with their effect', () => {
  const lines = planTable(plan, wide).split('\n');
  const names = lines
    .map((line) => line.split(' ')[0] ?? '')
    .filter((word) => (doubtNames as readonly string[]).includes(word));
  expect(names).toEqual(['start-state', 'order', 'pedal-held', 'tail', 'engine']);
  expect(rowOf(planTable(plan, wide), 'engine')).toMatch(/ plain +3 +128\.0$/u);
  expect(lines).toContain('Plain: the price has been freed on your word.');
  expect(rowOf(planTable(plan, wide), 'tail')).toMatch(/ accepted +1 +20\.0$/u);
  expect(lines).toContain('Accepted: the price stays in memory on your word.');
});

test('without doubts it says so', () => {
  const text = planTable({ ...plan, doubts: [], together: [], doubtsAll: 0 }, wide);
  expect(text).toContain('Nothing is in doubt');
  const free = planTable({ ...plan, together: [], doubtsAll: 0 }, wide);
  expect(free).toContain('Caution costs nothing');
});

describe('dynamics and share', () => {
  const lineOf = (width: number | null, begins: string): string =>
    rowOf(planTable(plan, { ...wide, width }), begins);

  test('velocities, the controllers that shape the sound, and the share of the notes', () => {
    // 1 204 of 1 802 notes are 66.8 %.
    expect(lineOf(null, '0:48 Slow').split(/ {2,}/u).slice(1, 5)).toEqual([
      '1 204',
      '66 %',
      'C2-E5 (36-76)',
      'v 20-101, CC1 0-101, CC11 90',
    ]);
    expect(lineOf(null, '0:60 Foghorns')).not.toContain('%');
  });

  test('more controllers than a row can name are counted', () => {
    const [first, ...rest] = instrument.articulations;
    const controllers = [1, 2, 11, 74, 91].map((number) => ({ number, range: [0, 9] as const }));
    const text = withArticulations([{ ...first!, controllers }, ...rest]);
    expect(rowOf(text, '0:46')).toContain('v 38-90, CC1 0-9, CC2 0-9, CC11 0-9, +2');
  });

  test('they go first, share before dynamics, and no name is cut for them', () => {
    const left = [80, 115, 120].map(
      (width) => /Not shown in this width: (.*)\./u.exec(planTable(plan, { ...wide, width }))?.[1],
    );
    expect(left).toEqual(['share, dynamics, layers kept', 'share', undefined]);
    for (const width of [80, 115, 120]) {
      expect(lineOf(width, '0:48 Slow Tide Strings ')).toContain('54/96');
    }
    for (const width of [115, 120]) {
      expect(lineOf(width, '0:48 Slow Tide Strings ')).toContain('CC1 0-101');
    }
  });

  test('nothing to say is no column, and one articulation has no share', () => {
    const [first] = instrument.articulations;
    expect(withArticulations([first!])).not.toContain('Share');
    expect(withArticulations([{ ...first!, velocities: null }])).not.toContain('Dynamics');
  });
});
