import { parseBytes } from '../bytes.ts';
import { parseMiddleC } from '../key.ts';
import { parseRange } from '../range.ts';
import type { YamlScalar } from '../yaml/tree.ts';
import { piece } from './shape-of.ts';

/** A shape of a single value that is there. */
export const leaf = <Value>(
  expected: string,
  options: readonly (string | number)[],
  read: (scalar: YamlScalar) => Value | null,
) =>
  piece(expected, options, (node) =>
    node.kind === 'scalar' && node.value !== null ? read(node) : null,
  );

/** Text with something in it; a number counts as it is written. */
export const text = leaf('text', [], (scalar) => (scalar.text.trim() === '' ? null : scalar.text));

/** An amount of memory in bytes. */
export const size = leaf('size', [], (scalar) => parseBytes(scalar.text));

export const middleC = leaf('middle-c', [], (scalar) => parseMiddleC(scalar.text));

export const velocities = leaf('velocities', [], (scalar) => parseRange(scalar.text));

export const whole = (lo: number, hi: number) =>
  leaf('whole-number', [lo, hi], ({ value }) =>
    typeof value === 'number' && Number.isInteger(value) && value >= lo && value <= hi
      ? value
      : null,
  );

/** One of a few words. */
export const choice = <const Word extends string>(words: readonly Word[]) =>
  leaf('choice', words, (scalar) => words.find((word) => word === scalar.text) ?? null);
