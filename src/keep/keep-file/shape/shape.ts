import type { ShapeFaults } from './shape-faults.ts';

/**
 * What may stand at some place of a keep file; faults are added where something else stands. Shapes
 * are tied to the types of `plan.ts`: one that does not mirror its type is a fault of types.
 *
 * They are written by hand because a file may be hostile: no more is looked at than can be told, cues
 * may be called anything (`constructor`), and what is missing is told by what belongs there.
 */
export interface Shape<in out Value> {
  (value: unknown, faults: ShapeFaults): void;
  /** Only to tell shapes of different values apart. */
  readonly of?: (value: Value) => Value;
}

const leaf =
  <Value>(expected: string, fits: (value: unknown) => boolean): Shape<Value> =>
  (value, faults) => {
    if (!fits(value)) faults.add(expected);
  };

/** A group of values by name, as JSON has it in braces. */
export type Group = Readonly<Record<string, unknown>>;

export const isGroup = (value: unknown): value is Group =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const text = leaf<string>('a text', (value) => typeof value === 'string');

export const truth = leaf<boolean>('true or false', (value) => typeof value === 'boolean');

const isWhole = (value: unknown): value is number => Number.isSafeInteger(value);

export const whole = leaf<number>('a whole number', isWhole);

export const count = leaf<number>('a whole number from 0', (value) => isWhole(value) && value >= 0);

export const fromOne = leaf<number>(
  'a whole number from 1',
  (value) => isWhole(value) && value >= 1,
);

/** A value of MIDI, or a key. */
export const seven = leaf<number>(
  'a whole number from 0 to 127',
  (value) => isWhole(value) && value >= 0 && value <= 127,
);

/** Seconds, or beats; JSON has no number that is not finite but may write one too large to hold. */
export const amount = leaf<number>(
  'a number from 0',
  (value) => typeof value === 'number' && value >= 0 && value < Infinity,
);

export const digest = leaf<string>(
  '64 digits from 0 to f',
  (value) => typeof value === 'string' && /^[\da-f]{64}$/u.test(value),
);

export const oneOf = <const Value extends string>(...values: readonly Value[]): Shape<Value> => {
  const known = new Set<unknown>(values);
  return leaf(`one of ${values.join(', ')}`, (value) => known.has(value));
};

export const orNull =
  <Value>(shape: Shape<Value>): Shape<Value | null> =>
  (value, faults) => {
    if (value !== null) shape(value, faults);
  };

export const list =
  <Value>(item: Shape<Value>): Shape<readonly Value[]> =>
  (value, faults) => {
    if (!Array.isArray(value)) {
      faults.add('a list');
      return;
    }
    for (let i = 0; i < value.length && !faults.isFull; i++) faults.within(i, item, value[i]);
  };

/** Values by names that come from elsewhere. */
export const byName =
  <Value>(item: Shape<Value>): Shape<Readonly<Record<string, Value>>> =>
  (value, faults) => {
    if (!isGroup(value)) {
      faults.add('a group of values by name');
      return;
    }
    for (const name of Object.keys(value)) {
      if (faults.isFull) return;
      faults.within(name, item, value[name]);
    }
  };

/** Keys that are not known are let pass: a later version may write more. */
export const group = <Value>(entries: {
  readonly [Key in keyof Value]-?: Shape<Value[Key]>;
}): Shape<Value> => {
  const shapes = Object.entries(entries) as readonly (readonly [string, Shape<unknown>])[];
  return (value, faults) => {
    if (!isGroup(value)) {
      faults.add('a group of values by name');
      return;
    }
    for (const [key, shape] of shapes) {
      if (faults.isFull) return;
      faults.within(key, shape, Object.hasOwn(value, key) ? value[key] : undefined);
    }
  };
};
