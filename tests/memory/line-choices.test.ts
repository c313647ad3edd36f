import { expect, test } from 'vitest';
import { lineChoices, type Lines } from '../../src/memory/line-choices.ts';

const a = { fixed: 0, factor: 2 };
const b = { fixed: 10, factor: 1 };
const c = { fixed: 5, factor: 3 };

test('every way to choose', () => {
  expect(lineChoices([], 'low')).toEqual([[]]);
  expect(lineChoices([[a, b], [c], [a, c]], 'high')).toEqual([
    [a, c, a],
    [a, c, c],
    [b, c, a],
    [b, c, c],
  ]);
});

test('from the ninth of two lines on, what lies beyond both', () => {
  const all: Lines = [...Array.from({ length: 8 }, () => [a, b] as const), [a, b], [c]];
  for (const [end, beyond] of [
    ['low', { fixed: 0, factor: 1 }],
    ['high', { fixed: 10, factor: 2 }],
  ] as const) {
    const ways = lineChoices(all, end);
    expect(ways).toHaveLength(256);
    for (const way of ways) expect(way.slice(8)).toEqual([beyond, c]);
  }
});
