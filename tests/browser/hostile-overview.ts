import type { Overview } from '../../src/overview/overview.ts';

/** Set by a name that ran: no page may ever have it. */
export const ranFlag = 'hostileNameRan';

const patterns: readonly ((i: number) => string)[] = [
  (i) => `</script><img src=x onerror=window.${ranFlag}=${String(i)}>`,
  (i) => `"><svg onload=window.${ranFlag}=${String(i)}>`,
  (i) => `\u202e3pm.${String(i)}\u202c\u2067 right to left`,
  (i) => `${String(i)} ${'long '.repeat(60)}`,
  (i) => `<!--<script>window.${ranFlag}=${String(i)}//`,
  (i) => `' autofocus onfocus=window.${ranFlag}=${String(i)} x='${String(i)}`,
];

/** All that a user, or the file of another, has named. */
const namesIn = (overview: Overview): readonly string[] => [
  ...overview.instruments.map(({ id }) => id),
  ...overview.instruments.flatMap(({ articulations }) => articulations.map(({ name }) => name)),
  ...overview.instruments.flatMap(({ copies }) => copies.map(({ name }) => name)),
  ...overview.instruments.flatMap(({ microphones }) => microphones.map(({ name }) => name)),
  ...overview.instruments.map(({ player }) => player),
  ...overview.instruments.map(({ source }) => source),
  ...overview.machines.map(({ id }) => id),
  ...overview.cues.map(({ id }) => id),
  ...overview.proof.cues.map(({ id }) => id),
  ...overview.tracks.flatMap((name) => (name === null ? [] : [name])),
  ...(overview.title === null ? [] : [overview.title]),
];

/** The same names everywhere they stand, so that the overview still agrees with itself. */
export const hostileOf = (overview: Overview): Overview => {
  const names = new Map(
    [...new Set(namesIn(overview))].map((name, i) => [name, patterns[i % patterns.length]!(i)]),
  );
  const renamed = (value: unknown): unknown => {
    if (typeof value === 'string') return names.get(value) ?? value;
    if (Array.isArray(value)) return value.map(renamed);
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, renamed(one)]));
  };
  const made = renamed(overview) as Overview;
  // Words of our own may equal a name (`sampler`, a state); what is not a name keeps its word.
  return {
    ...made,
    ...{ schema: overview.schema, settings: overview.settings, risks: overview.risks },
    proof: { ...made.proof, verdict: overview.proof.verdict, of: overview.proof.of },
  };
};
