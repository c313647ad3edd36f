import { describe, expect, test } from 'vitest';
import { notesWords } from '../../src/report/said/notes.ts';
import { keptItems } from '../../src/report/worklist-words.ts';
import type { KeptLayer } from '../../src/trim/worklist/worklist.ts';
import type { Range } from '../../src/terms/range.ts';

const velocity = (lo: number, hi: number): KeptLayer => ({ velocity: [lo, hi], controllers: [] });

const cc = (number: number, range: Range): KeptLayer => ({
  velocity: [1, 127],
  controllers: [{ number, range }],
});

const limitsOf = (...layers: readonly KeptLayer[]): readonly string[] =>
  keptItems({ keys: [], layers });

describe('layers that stay', () => {
  test('say nothing where they leave no gap', () => {
    expect(limitsOf(cc(1, [0, 71]), cc(1, [57, 127]))).toEqual([]);
    expect(limitsOf(velocity(61, 127), velocity(1, 60))).toEqual([]);
    expect(limitsOf(velocity(0, 60), velocity(61, 127))).toEqual([]);
    expect(limitsOf(cc(1, [0, 40]), cc(11, [0, 63]), cc(11, [64, 127]))).toEqual([]);
  });

  test('are named where one value is left out', () => {
    expect(limitsOf(cc(1, [0, 55]), cc(1, [57, 127]))).toEqual(['CC1 0-55', 'CC1 57-127']);
    expect(limitsOf(cc(1, [1, 71]), cc(1, [57, 127]))).toEqual(['CC1 1-71', 'CC1 57-127']);
    expect(limitsOf(velocity(1, 60), velocity(61, 126))).toEqual([
      'velocity 1-60',
      'velocity 61-126',
    ]);
  });

  test('do not add up over controls that choose each for itself', () => {
    expect(limitsOf(cc(1, [0, 71]), cc(11, [57, 127]))).toEqual(['CC1 0-71', 'CC11 57-127']);
    const soft: KeptLayer = { ...cc(1, [0, 71]), velocity: [1, 60] };
    expect(limitsOf(soft, cc(1, [57, 127]))).toEqual(['velocity 1-60 and CC1 0-71', 'CC1 57-127']);
  });
});

test.each([
  [{ choosing: 0, doubtful: 0, nothing: 0 }, '61 notes'],
  [{ choosing: 4, doubtful: 0, nothing: 0 }, '61 notes (4 only choose what follows)'],
  [
    { choosing: 1, doubtful: 20, nothing: 1 },
    '61 notes (1 only chooses what follows, 20 start something only in doubt, 1 starts nothing)',
  ],
])('notes that no articulation counts: %o', (otherNotes, words) => {
  expect(notesWords({ notes: 61, otherNotes })).toBe(words);
});
