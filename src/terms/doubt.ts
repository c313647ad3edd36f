/**
 * What a file cannot tell (design, section 6), and sets of it.
 *
 * A doubt set is a bit mask over {@link doubtNames}; 0 is the plain reading. A list of doubt sets is
 * kept *minimal*: no set in it contains another, and they ascend by mask.
 */
export const doubtNames = [
  'start-state',
  'no-switch',
  'order',
  'slack',
  'smoothing',
  'tail',
  'pedal-held',
  'engine',
  'stretch',
  'damage',
] as const;

export type DoubtName = (typeof doubtNames)[number];

/** A set of doubts as a bit mask: bit i stands for `doubtNames[i]`. */
export type DoubtSet = number;

/** The plain reading: what the format's documentation says happens with the events as exported. */
export const plain: DoubtSet = 0;

/** The set that holds the named doubts. */
export const doubtSet = (...names: readonly DoubtName[]): DoubtSet =>
  names.reduce((set, name) => set | (1 << doubtNames.indexOf(name)), 0);

/** The names in a set, in the order of {@link doubtNames}. */
export const namesOf = (set: DoubtSet): readonly DoubtName[] =>
  doubtNames.filter((_, bit) => (set & (1 << bit)) !== 0);

/** True when every doubt of `inner` is also in `outer`. */
export const within = (inner: DoubtSet, outer: DoubtSet): boolean => (inner & ~outer) === 0;

/** min(X): drops every set that contains another of the list; ascending, without repeats. */
export const minimal = (sets: readonly DoubtSet[]): readonly DoubtSet[] => {
  if (sets.length < 2) return sets;
  const ascending = [...new Set(sets)].sort((a, b) => a - b);
  return ascending.filter((set) => !ascending.some((other) => other !== set && within(other, set)));
};

/** min of every union of one set from each list: how conditions that must hold together add up. */
export const product = (a: readonly DoubtSet[], b: readonly DoubtSet[]): readonly DoubtSet[] => {
  if (a.length === 1 && a[0] === plain) return b;
  if (b.length === 1 && b[0] === plain) return a;
  return minimal(a.flatMap((x) => b.map((y) => x | y)));
};

/** min of both lists taken together: how ways to the same zone add up. */
export const union = (a: readonly DoubtSet[], b: readonly DoubtSet[]): readonly DoubtSet[] => {
  if (a.length === 0) return b;
  if (b.length === 0) return a;
  return minimal([...a, ...b]);
};
