import { intersect, numbersIn, toRanges, type Range } from '../terms/range.ts';
import type { Playable, PlayableStretch } from './overview-playable.ts';
import type { Room } from './room.ts';

type Dynamics = PlayableStretch['dynamics'];
type Together = PlayableStretch['together'];

/**
 * What may be written whichever of several copies plays it: keys that sound in all of them, with the
 * dynamics for which none of them lacks anything.
 */
export const inAllCopies = (each: readonly Playable[]): Playable => {
  const roomsAt = each.map(({ stretches }) => byKey(stretches));
  const all = keysOf(each.flatMap((one) => one.all));
  const stretches = new Map<string, { readonly keys: number[]; readonly room: Room }>();
  for (const key of all) {
    const here = roomsAt.flatMap((at) => {
      const room = at.get(key);
      return room === undefined ? [] : [room];
    });
    if (here.length < each.length) continue;
    const room = common(here);
    const text = JSON.stringify(room);
    const known = stretches.get(text);
    if (known === undefined) stretches.set(text, { keys: [key], room });
    else known.keys.push(key);
  }
  const isWhole = each.every(({ state }) => state === 'whole');
  return {
    state: stretches.size === 0 ? 'gone' : isWhole ? 'whole' : 'part',
    all: toRanges(all),
    stretches: [...stretches.values()].map(({ keys, room }) => ({ keys: toRanges(keys), ...room })),
  };
};

const byKey = (stretches: readonly PlayableStretch[]): ReadonlyMap<number, Room> =>
  new Map(
    stretches.flatMap(({ keys, ...room }) =>
      keysOf(keys).map((key): [number, Room] => [key, room]),
    ),
  );

const keysOf = (ranges: readonly Range[]): readonly number[] =>
  [...new Set(ranges.flatMap(numbersIn))].sort((a, b) => a - b);

const isFree = (dynamics: Dynamics): boolean =>
  dynamics.length === 0 ||
  dynamics.some(({ safe, all }) => safe.some(([lo, hi]) => lo <= all[0] && hi >= all[1]));

const common = (copies: readonly Room[]): Room => {
  const dynamics = commonDynamics(copies.map((room) => room.dynamics));
  const isLimited = dynamics.some(({ safe }) => safe.length > 0);
  const together = isLimited ? [] : commonBox(copies);
  const decides = copies
    .filter((room) => !isFree(room.dynamics))
    .flatMap((room) =>
      room.dependsOn.length > 0 ? room.dependsOn : room.dynamics.map(({ by }) => by),
    );
  const isTold = isFree(dynamics) || isLimited || together.length > 0;
  return {
    dynamics,
    together,
    dependsOn: isTold ? [] : [...new Set(decides)],
    releasesGone: copies.some((room) => room.releasesGone),
  };
};

/** A value of one control is safe where each copy is free, or says so of that very control. */
const commonDynamics = (copies: readonly Dynamics[]): Dynamics => {
  const bys = [...new Set(copies.flatMap((dynamics) => dynamics.map(({ by }) => by)))].sort(
    (a, b) => number(a) - number(b),
  );
  return bys.map((by) => {
    const own = copies.map((dynamics) => dynamics.find((one) => one.by === by));
    const ranges = own.flatMap((one) => (one === undefined ? [] : [one.all]));
    const all: Range = [
      Math.min(...ranges.map(([lo]) => lo)),
      Math.max(...ranges.map(([, hi]) => hi)),
    ];
    const safe = numbersIn(all).filter((value) =>
      copies.every(
        (dynamics, i) =>
          isFree(dynamics) || (own[i]?.safe ?? []).some(([lo, hi]) => lo <= value && value <= hi),
      ),
    );
    return { by, safe: toRanges(safe), all };
  });
};

/** What lies in a box of each copy that is not free; none where one of them has no box. */
const commonBox = (copies: readonly Room[]): Together => {
  const box = new Map<PlayableStretch['together'][number]['by'], Range>();
  for (const room of copies) {
    if (isFree(room.dynamics)) continue;
    const own = boxOf(room);
    if (own.length === 0) return [];
    for (const { by, range } of own) {
      const both = intersect(box.get(by) ?? range, range);
      if (both === null) return [];
      box.set(by, both);
    }
  }
  return [...box].map(([by, range]) => ({ by, range })).sort((a, b) => number(a.by) - number(b.by));
};

/** The box of a copy, which may be the widest limit of one control alone. */
const boxOf = ({ dynamics, together }: Room): Together => {
  if (together.length > 0) return together;
  const limits = dynamics.flatMap(({ by, safe }) => safe.map((range) => ({ by, range })));
  const width = ({ range: [lo, hi] }: { readonly range: Range }): number => hi - lo;
  return limits.sort((a, b) => width(b) - width(a)).slice(0, 1);
};

const number = (by: Dynamics[number]['by']): number => (by === 'velocity' ? -1 : by);
