/**
 * Sets of doubts as bit masks. The empty set, 0, is the plain reading: it happens in any case. A set
 * such as `order | engine` says: it happens only if both of these doubts turn out that way.
 */
export const doubtBits = {
  startState: 1,
  noSwitch: 2,
  order: 4,
  slack: 8,
  smoothing: 16,
  tail: 32,
  pedalHeld: 64,
  engine: 128,
  stretch: 256,
  damage: 512,
} as const;

/** The plain reading: no doubt at all. */
export const plain = 0;

/** A value that something may have, and the doubts under which it has it. */
export interface Alternative<Value> {
  readonly value: Value;
  readonly doubts: number;
}

/**
 * Drops every set that contains another one, and repeats. What is left is in ascending order, so two
 * results can be compared as they are.
 */
export function minimal(sets: readonly number[]): number[] {
  const different = [...new Set(sets)];
  return different
    .filter((set) => !different.some((other) => other !== set && (other & set) === other))
    .sort((a, b) => a - b);
}
