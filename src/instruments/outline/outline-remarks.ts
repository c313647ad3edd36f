import { shortened } from '../../notation/document/shortened.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import type { Sample } from '../instrument.ts';
import type { Outline, OutlineArticulation } from './outline.ts';
import { partsOf, type OutlineZone, type Role } from './outline-zone.ts';

/** The most names that one remark lists. */
const mostNamed = 12;

/** What is good to know about an outline that was read. */
export const remarksOn = (
  { path, articulations }: Outline,
  zones: readonly OutlineZone[],
  sizes: readonly Pick<Sample, 'present'>[],
): readonly Finding[] => {
  const unsized = unsizedOf(articulations, zones, sizes);
  const unchosen =
    articulations.length < 2 ? [] : articulations.filter(({ choice }) => choice.kind === 'unknown');
  return [
    ...assumptions(path, articulations),
    ...(unsized.length === 0
      ? []
      : [
          finding('warning', 'outline-size-unknown', path, {
            ...namesOf(unsized.map(({ own }) => own)),
            parts: unsized.slice(0, mostNamed).map(({ parts }) => parts.join(' ')),
          }),
        ]),
    ...(unchosen.length === 0
      ? []
      : [finding('note', 'outline-no-switch', path, namesOf(unchosen))]),
  ];
};

interface Unsized {
  readonly own: OutlineArticulation;
  /** What has no size; empty: all of it. */
  readonly parts: readonly Role[];
}

const unsizedOf = (
  articulations: readonly OutlineArticulation[],
  zones: readonly OutlineZone[],
  sizes: readonly Pick<Sample, 'present'>[],
): readonly Unsized[] => {
  const unknown = articulations.map(() => new Set<Role>());
  zones.forEach(({ articulation, role }, i) => {
    if (!sizes[i]!.present) unknown[articulation]!.add(role);
  });
  return articulations.flatMap((own, i): readonly Unsized[] => {
    const roles = unknown[i]!;
    if (roles.size === 0) return [];
    const all = partsOf(own).map(({ role }) => role);
    return [{ own, parts: roles.size === all.length ? [] : all.filter((role) => roles.has(role)) }];
  });
};

/** Lengths come to bytes only with the rest. */
const assumptions = (
  path: string,
  articulations: readonly OutlineArticulation[],
): readonly Finding[] => {
  const timed = articulations.filter(({ seconds, releases, legato }) =>
    [seconds, releases?.seconds ?? null, legato?.seconds ?? null].some((one) => one !== null),
  );
  const count = (name: keyof OutlineArticulation['sound']): number =>
    timed.filter(({ sound }) => sound[name] === null).length;
  const args = {
    articulations: timed.filter(({ sound }) => Object.values(sound).includes(null)).length,
    rate: count('rate'),
    bits: count('bits'),
    channels: count('channels'),
  };
  return args.articulations === 0 ? [] : [finding('note', 'outline-assumed', path, args)];
};

const namesOf = (
  some: readonly OutlineArticulation[],
): { readonly articulations: readonly string[]; readonly more: number } => ({
  articulations: some.slice(0, mostNamed).map(({ name }) => shortened(name)),
  more: Math.max(0, some.length - mostNamed),
});
