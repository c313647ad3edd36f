import { expect, test } from 'vitest';
import type { KeptZone, Plan, PlanDoubt, PlanInstrument } from '../../src/keep/plan.ts';
import { plainColors } from '../../src/report/colors.ts';
import { doubtsTable } from '../../src/report/doubts-table.ts';
import type { Look } from '../../src/report/look.ts';
import type { DoubtName } from '../../src/terms/doubt.ts';
import { instrument, plan } from './fixtures/plan.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };

const zone = (...doubts: KeptZone['doubts']): KeptZone => ({ ...instrument.kept[0]!, doubts });

const holding = (
  id: string,
  kept: readonly KeptZone[],
  settle: PlanInstrument['settle'] = {},
): PlanInstrument => ({ ...instrument, id, kept, settle });

const doubt = (
  name: DoubtName,
  bytes: number,
  settled: PlanDoubt['settled'] = null,
): PlanDoubt => ({ name, settled, zones: 1, bytes });

const below = (
  doubts: readonly PlanDoubt[],
  instruments: readonly PlanInstrument[] = [],
  { isTemplate = true, together = [] as Plan['together'] } = {},
): readonly string[] => {
  const lines = doubtsTable({ ...plan, doubts, instruments, together }, isTemplate, wide)
    .join('\n')
    .split('\n');
  return lines.slice(lines.findIndex((line) => line.startsWith('all ')) + 1);
};

const lastRow = (doubts: readonly PlanDoubt[], instruments: readonly PlanInstrument[]): string =>
  doubtsTable({ ...plan, doubts, instruments }, true, wide)
    .join('\n')
    .split('\n')
    .find((line) => line.startsWith('all ')) ?? '';

test('where an open doubt sits: the most zones first, then by name', () => {
  const one = zone(['no-switch']);
  const instruments = [
    holding('oboe', [one]),
    holding('celli', [one]),
    holding('flutes', [one, zone(['order', 'no-switch']), zone([])]),
    holding('tuba', [zone([])]),
    holding('horns', [one, zone(['order'], ['no-switch'])]),
    holding('harp', [one, one, one], { 'no-switch': 'accept' }),
  ];
  expect(below([doubt('no-switch', 9)], instruments)[0]).toBe(
    'no-switch: flutes, horns, celli and 1 more',
  );
  expect(below([doubt('no-switch', 9)], instruments.slice(0, 1))[0]).toBe('no-switch: oboe');
  expect(below([doubt('no-switch', 9)], instruments, { isTemplate: false })).toEqual([
    'Settle one when you know the answer: --settle no-switch=plain.',
  ]);
});

test('five doubts at most, the dearest first; only open ones with a price', () => {
  const names: readonly DoubtName[] = ['order', 'slack', 'tail', 'engine', 'stretch', 'no-switch'];
  const everywhere = holding('oboe', [zone(['start-state', 'smoothing', ...names])]);
  const priced = names.map((name, i) => doubt(name, i + 1));
  const lines = below(
    [...priced, doubt('start-state', 0), doubt('smoothing', 99, 'accept')],
    [everywhere],
  ).filter((line) => line.endsWith(': oboe'));
  expect(lines.map((line) => line.split(':')[0])).toEqual([
    'no-switch',
    'stretch',
    'engine',
    'tail',
    'slack',
  ]);
});

test('how to answer: only what applies', () => {
  const route = '; naming the articulation in a route answers no-switch too.';
  const settle = 'Settle one when you know the answer: --settle';
  expect(below([doubt('order', 9), doubt('no-switch', 4)])).toEqual([
    `${settle} order=plain, or settle: in the template${route}`,
  ]);
  expect(below([doubt('order', 9), doubt('no-switch', 0)])).toEqual([
    `${settle} order=plain, or settle: in the template.`,
  ]);
  // Damage has no answer, so it is no example of one.
  expect(below([doubt('damage', 9), doubt('tail', 1)])[0]).toContain('--settle tail=plain');
  expect(below([doubt('damage', 9)])).toEqual([]);
  expect(below([doubt('order', 0)])).toEqual([]);
  expect(below([doubt('order', 9, 'plain')])).toEqual([
    'Plain: the price has been freed on your word.',
  ]);
});

test('what together means stands below the table once', () => {
  const together = [
    { names: ['order', 'tail'], bytes: 9 },
    { names: ['order', 'slack'], bytes: 8 },
  ] as const;
  const line = 'Together: settled at once they free more than one by one.';
  expect(below([doubt('order', 0)], [], { together })).toEqual([line]);
});

test('the last row says whether accepted doubts are counted', () => {
  const open = [doubt('order', 9)];
  const sits = [zone(['order'])];
  expect(lastRow(open, [holding('oboe', sits)])).toContain(' all that are open ');
  expect(lastRow([...open, doubt('tail', 1, 'accept')], [])).toContain(' all, open and accepted ');
  // Accepted for one instrument, open for another.
  const accepted = holding('harp', sits, { order: 'accept' });
  expect(lastRow(open, [holding('oboe', sits), accepted])).toContain(' all, open and accepted ');
  const idle = holding('harp', [], { order: 'accept' });
  expect(lastRow(open, [holding('oboe', sits), idle])).toContain(' all that are open ');
});
