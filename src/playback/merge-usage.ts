import { byCodePoint } from '../terms/code-point-order.ts';
import type { LeftCue, SourceUsage, UsageChoices, ZoneUsage } from './zone-usage.ts';

/** What two usages can't be merged for. */
export type Difference =
  | { readonly kind: 'template' }
  | { readonly kind: 'instrument'; readonly id: string }
  /** They were not played or read alike. */
  | { readonly kind: 'controller-rooms' | 'places' | 'newest' | 'split' }
  /** One cue file, and not the same in both: read alone, and together with others of its cue. */
  | { readonly kind: 'file'; readonly path: string };

/** Why two usages can't be merged. */
export class MergeRefused extends Error {
  override readonly name = 'MergeRefused';
  readonly difference: Difference;

  constructor(difference: Difference) {
    super(difference.kind);
    this.difference = difference;
  }
}

/**
 * Joins the usage of two runs; in any order and any grouping the result is the same, and what both
 * hold counts once.
 *
 * @throws {MergeRefused} when templates differ, an instrument's definition does, or how they were made
 */
export const mergeUsage = (a: ZoneUsage, b: ZoneUsage): ZoneUsage => {
  const difference = differenceOf(a, b);
  if (difference !== null) throw new MergeRefused(difference);
  return {
    schema: 'keepset/zone-usage@1',
    template: a.template,
    instruments: sorted({ ...a.instruments, ...b.instruments }),
    controllerRooms: a.controllerRooms,
    everyPlace: a.everyPlace,
    choices: joinChoices(a.choices, b.choices),
    reel: ascending([...a.reel, ...b.reel]),
    leftOut: leftInOrder([...a.leftOut, ...b.leftOut]),
    sources: joinSources(a.sources, b.sources),
    files: sorted({ ...a.files, ...b.files }),
  };
};

const differenceOf = (a: ZoneUsage, b: ZoneUsage): Difference | null => {
  if (a.template !== b.template) return { kind: 'template' };
  const id = clashOf(a.instruments, b.instruments);
  if (id !== null) return { kind: 'instrument', id };
  if (a.controllerRooms.join() !== b.controllerRooms.join()) return { kind: 'controller-rooms' };
  if (a.choices.newest !== b.choices.newest) return { kind: 'newest' };
  if (a.choices.split !== b.choices.split) return { kind: 'split' };
  if (a.everyPlace !== b.everyPlace) return { kind: 'places' };
  const file = clashOf(a.files, b.files);
  if (file !== null) return { kind: 'file', path: a.files[file]!.path };
  // A file that holds several cues may have been read for other ones of them.
  const source = Object.keys(b.sources).find((key) => {
    if (!Object.hasOwn(a.sources, key)) return false;
    const [one, other] = [a.sources[key]!, b.sources[key]!];
    const isSame = JSON.stringify(one.findings) === JSON.stringify(other.findings);
    return !isSame || clashOf(one.routing, other.routing) !== null;
  });
  return source === undefined ? null : { kind: 'file', path: a.sources[source]!.path };
};

const joinSources = (a: ZoneUsage['sources'], b: ZoneUsage['sources']): ZoneUsage['sources'] => {
  const joined = Object.entries(b).map(([key, source]): [string, SourceUsage] => {
    const other = Object.hasOwn(a, key) ? a[key]! : source;
    return [key, { ...source, routing: sorted({ ...other.routing, ...source.routing }) }];
  });
  return sorted({ ...a, ...Object.fromEntries(joined) });
};

/** The first key that both have with different values. */
const clashOf = (
  a: Readonly<Record<string, unknown>>,
  b: Readonly<Record<string, unknown>>,
): string | null =>
  Object.keys(b).find(
    (key) => Object.hasOwn(a, key) && JSON.stringify(a[key]) !== JSON.stringify(b[key]),
  ) ?? null;

const joinChoices = (a: UsageChoices, b: UsageChoices): UsageChoices => ({
  ...a,
  without: ascending([...a.without, ...b.without]),
  acceptPartial: ascending([...a.acceptPartial, ...b.acceptPartial]),
});

/** In code point order, each once. */
export const ascending = (texts: readonly string[]): readonly string[] =>
  [...new Set(texts)].sort(byCodePoint);

/** Each once, by path. */
export const leftInOrder = (all: readonly LeftCue[]): readonly LeftCue[] => {
  const byPath = new Map(all.map((one) => [`${one.path}\n${one.cue}`, one]));
  return [...byPath].sort(([a], [b]) => byCodePoint(a, b)).map(([, one]) => one);
};

/** Keys in code point order. */
export const sorted = <T>(record: Readonly<Record<string, T>>): Record<string, T> =>
  Object.fromEntries(Object.entries(record).sort(([a], [b]) => byCodePoint(a, b)));
