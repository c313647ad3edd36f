/** What belongs somewhere: `a` completes "is not", `how` says how it is written. */
export interface Belonging {
  readonly a: (options: readonly string[]) => string;
  readonly how: (options: readonly string[]) => string;
}

export const belonging = (a: string, how: string): Belonging => ({
  a: () => a,
  how: () => how,
});
