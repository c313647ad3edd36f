import { shortened } from '../../../notation/document/shortened.ts';
import type { Faults } from '../../../notation/document/faults.ts';
import { fold } from '../../../notation/fold.ts';
import { nearest } from '../../../notation/nearest.ts';
import type { FindingArgs, Place } from '../../../terms/finding.ts';
import type { OwnFields } from './own-fields.ts';
import type { Fields } from './shapes.ts';

/** Names that are shown where one is not known. */
const most = 8;

/** What a finding says of an articulation that is not there. */
export const unknownArticulation = (
  name: string,
  names: readonly string[],
): FindingArgs['outline-unknown-articulation'] => ({
  name: shortened(name),
  near: nearest(name, names),
  known: names.slice(0, most).map(shortened),
});

/** What an articulation says, with what it takes from another. */
export interface Filled {
  readonly fields: Fields;
  readonly keysAt: Place;
}

/**
 * What one articulation hands on to those that are like it. What a display showed is not: it was read
 * for this one. Nor is what selects it, or its own reading: those are only taken from an articulation
 * itself.
 */
const handedOn = ({ fields }: Filled): Fields => {
  const { releases, legato } = fields;
  const without = <Part>(part: Part): Part =>
    typeof part === 'object' && part !== null ? { ...part, measured: null } : part;
  return {
    ...fields,
    ...(releases === undefined ? {} : { releases: without(releases) }),
    ...(legato === undefined ? {} : { legato: without(legato) }),
  };
};

const fill = ({ fields, keysAt }: OwnFields, from: Filled | null): Filled =>
  from === null
    ? { fields, keysAt }
    : {
        fields: { ...handedOn(from), ...fields },
        keysAt: fields.keys === undefined ? from.keysAt : keysAt,
      };

/**
 * Fills in `like` (design, section 8), over any number of steps. A circle and a name that is not there
 * are faults; what is wrong so is as if nothing were said.
 *
 * @returns in the order of `all`
 */
export const fillLike = (all: readonly OwnFields[], faults: Faults): readonly Filled[] => {
  const names = all.map(({ name }) => name);
  const indices = new Map(names.map((name, i) => [fold(name), i]));
  const sources = all.map(({ fields: { like }, likeAt }): number | null => {
    if (like === undefined || like === null) return null;
    const source = indices.get(fold(like));
    if (source === undefined) {
      faults.add(likeAt, 'outline-unknown-articulation', () => unknownArticulation(like, names));
    }
    return source ?? null;
  });
  const filled = new Array<Filled | undefined>(all.length).fill(undefined);
  for (const start of all.keys()) {
    // Up to the first that is filled, then down again: chains may be long.
    const way: number[] = [];
    const onWay = new Set<number>();
    let at: number | null = start;
    while (at !== null && filled[at] === undefined && !onWay.has(at)) {
      way.push(at);
      onWay.add(at);
      at = sources[at] ?? null;
    }
    let from = at === null ? null : (filled[at] ?? null);
    if (at !== null && from === null) {
      const circle = way.slice(way.indexOf(at));
      faults.add(all[at]!.likeAt, 'outline-like-circle', () => ({
        articulations: circle.slice(0, most).map((i) => shortened(names[i]!)),
      }));
    }
    for (const i of way.reverse()) {
      from = fill(all[i]!, from);
      filled[i] = from;
    }
  }
  return filled as readonly Filled[];
};
