/** Something in a value that is not as it should be. */
export interface Fault {
  /** Keys and positions from the top, the innermost first. */
  readonly path: (string | number)[];
  /** What belongs there: a word of its own, see {@link Expected}. */
  readonly expected: Expected;
}

export type Expected =
  | 'keys'
  | 'list'
  | 'text'
  | 'number'
  | 'true-false'
  | 'word'
  | 'no-more-keys'
  | 'reference'
  | 'order'
  | 'finding';

/** Looks at a value that came from outside; null when it is sound. */
export type Check = (value: unknown) => Fault | null;

export const fault = (expected: Expected, ...path: (string | number)[]): Fault => ({
  path: path.reverse(),
  expected,
});

/** The fault as seen from further out. */
export const within = (found: Fault | null, key: string | number): Fault | null => {
  found?.path.push(key);
  return found;
};

export const text: Check = (value) => (typeof value === 'string' ? null : fault('text'));

export const flag: Check = (value) => (typeof value === 'boolean' ? null : fault('true-false'));

/** A number of any kind that is finite, ends included. */
export const number =
  (lo: number, hi: number): Check =>
  (value) =>
    typeof value === 'number' && value >= lo && value <= hi ? null : fault('number');

/** A whole number, ends included. */
export const whole =
  (lo: number, hi: number): Check =>
  (value) =>
    Number.isInteger(value) && (value as number) >= lo && (value as number) <= hi
      ? null
      : fault('number');

export const oneOf =
  (...values: readonly unknown[]): Check =>
  (value) =>
    values.includes(value) ? null : fault('word');

export const orNull =
  (check: Check): Check =>
  (value) =>
    value === null ? null : check(value);

export const either =
  (first: Check, second: Check): Check =>
  (value) =>
    first(value) === null ? null : second(value);

export const list =
  (item: Check): Check =>
  (value) => {
    if (!Array.isArray(value)) return fault('list');
    for (let i = 0; i < value.length; i++) {
      const found = item(value[i]);
      if (found !== null) return within(found, i);
    }
    return null;
  };

/** A list with one check for each place. */
export const row =
  (...items: readonly Check[]): Check =>
  (value) => {
    if (!Array.isArray(value) || value.length !== items.length) return fault('list');
    for (let i = 0; i < items.length; i++) {
      const found = items[i]!(value[i]);
      if (found !== null) return within(found, i);
    }
    return null;
  };

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Any keys, one check for all values. */
export const record =
  (item: Check): Check =>
  (value) => {
    if (!isObject(value)) return fault('keys');
    for (const [key, one] of Object.entries(value)) {
      const found = item(one);
      if (found !== null) return within(found, key);
    }
    return null;
  };

/** One check for each key of a type: none may be missing, none may be there besides. */
export type Fields<T> = { readonly [Key in keyof T]-?: Check };

export const object = <T>(fields: Fields<T>): Check => {
  const entries = Object.entries<Check>(fields);
  return (value) => {
    if (!isObject(value)) return fault('keys');
    for (const [key, check] of entries) {
      const found = check(Object.hasOwn(value, key) ? value[key] : undefined);
      if (found !== null) return within(found, key);
    }
    const unknown = Object.keys(value).find((key) => !Object.hasOwn(fields, key));
    return unknown === undefined ? null : fault('no-more-keys', unknown);
  };
};

/** For keys that may be missing. */
export const optional =
  (check: Check): Check =>
  (value) =>
    value === undefined ? null : check(value);

/** The first fault of several looks at one value. */
export const all =
  (...checks: readonly Check[]): Check =>
  (value) => {
    for (const check of checks) {
      const found = check(value);
      if (found !== null) return found;
    }
    return null;
  };
