import { expect, test } from 'vitest';
import type { OverviewStep } from '../../../src/overview/overview-steps.ts';
import type { Overview } from '../../../src/overview/overview.ts';
import { nothingToDo } from '../../../src/report/said/nothing-to-do.ts';
import { overview } from '../fixtures/overview.ts';

const [list] = overview.worklist;
const [step] = list!.actions;

const told = (...steps: readonly Partial<OverviewStep>[]): string => {
  const actions = steps.map((one) => ({ ...step!, ...one }));
  const only: Overview = { ...overview, actions: [], worklist: [{ ...list!, actions }] };
  return nothingToDo(only);
};

const needed = { missed: 'plain' } as const;
const perhapsNeeded = { missed: 'doubt' } as const;
const unknown = { unknownSamples: 2, frees: 0 };

test('nothing to unload is said only where the worklist has no step', () => {
  expect(told()).toBe('Nothing to unload.');
  for (const steps of [[needed], [unknown], [{ frees: 0 }]]) {
    expect(told(...steps)).not.toBe(told());
  }
});

test('steps that a large page leaves out are steps all the same', () => {
  const left = { ...list!, actions: [{ ...step!, ...needed }], unlisted: { steps: 3, frees: 0 } };
  const of = (actions: readonly OverviewStep[]): string =>
    nothingToDo({ ...overview, actions: [], worklist: [{ ...left, actions }] });
  for (const actions of [[], left.actions]) {
    expect(of(actions)).toBe('No step that may be done frees any memory.');
  }
});

test('where every step is needed it says so', () => {
  const isNeeded = 'No step is to be done: what was checked needs all that they unload.';
  expect(told(needed, perhapsNeeded)).toBe(isNeeded);
  expect(told({ ...needed, ...unknown })).toBe(isNeeded);
});

test('where no step that may be done is of a known size it says so', () => {
  expect(told(needed, unknown)).toMatch(/^Nobody knows how much the steps of the worklist free/u);
  expect(told(needed, { frees: 0 })).toBe('No step that may be done frees any memory.');
});
