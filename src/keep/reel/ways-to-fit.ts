import { machineMemory } from '../../memory/machine-memory.ts';
import type { Grain } from '../../template/player.ts';
import type { Machine } from '../../template/machine.ts';
import { doubtNames, type DoubtName } from '../../terms/doubt.ts';
import { decide, loadedUnder, settledAsPlain, type Subject } from '../decision.ts';
import type { WayToFit } from './reel-memory.ts';

/** Units from the largest to the smallest; a microphone may be more or less than an articulation. */
const grains: readonly Grain[] = ['instrument', 'articulation', 'layer', 'sample'];

/** Of each kind, first what is enough, the least of it first; then what frees most. */
const bestFirst = (a: WayToFit, b: WayToFit): number =>
  Number(b.fits) - Number(a.fits) || (a.fits ? a.bytes - b.bytes : b.bytes - a.bytes);

/**
 * What would make room on a machine that the whole reel does not fit on, each way alone (design,
 * section 7). A coarser unit never frees anything, so only finer ones are tried.
 *
 * @param doubts those that are open in the reel
 * @param writable ids of instruments that `trim` can write
 */
export const waysToFit = (
  subjects: readonly Subject[],
  machine: Machine & { readonly budget: number },
  machines: readonly Machine[],
  doubts: readonly DoubtName[],
  writable: ReadonlySet<string>,
): readonly WayToFit[] => {
  const high = (on: string, some: readonly Subject[]): number =>
    machineMemory(
      some
        .filter((subject) => subject.machine === on)
        .map((subject) => loadedUnder(subject, decide(subject, settledAsPlain(subject.settle)))),
    ).high;
  const now = high(machine.id, subjects);
  const here = subjects.filter((subject) => subject.machine === machine.id);
  const freed = (bytes: number): Pick<WayToFit, 'bytes' | 'fits'> => ({
    bytes,
    fits: now - bytes <= machine.budget,
  });
  const inPlace = (subject: Subject, other: Subject): readonly Subject[] =>
    here.map((one) => (one === subject ? other : one));

  const settling = groupsOf(doubts).map((names) => {
    // An answer that was given stays: only what is open can be settled.
    const without = here.map((subject) => ({ ...subject, settle: plainly(subject, names) }));
    return { kind: 'settle' as const, doubts: names, ...freed(now - high(machine.id, without)) };
  });
  const unloading = here.flatMap((subject): readonly WayToFit[] => {
    const { id } = subject.instrument;
    const from = subject.player.unloads;
    const finer = from === 'microphone' ? grains.slice(-2) : grains.slice(grains.indexOf(from) + 1);
    const by = finer.map((to) => {
      const player = { ...subject.player, unloads: to };
      return { to, bytes: now - high(machine.id, inPlace(subject, { ...subject, player })) };
    });
    const most = by.reduce((best, { bytes }) => Math.max(best, bytes), 0);
    if (most === 0) return [];
    if (writable.has(id)) return [{ kind: 'trim', instrument: id, ...freed(most) }];
    // Several units may free the same: the coarsest of them asks least of the player.
    const { to } = by.find(({ bytes }) => bytes === most)!;
    return [{ kind: 'unload-by', instrument: id, from, to, ...freed(most) }];
  });
  const moving = here.flatMap((subject): readonly WayToFit[] => {
    const { id } = subject.instrument;
    const way = freed(
      now -
        high(
          machine.id,
          here.filter((one) => one !== subject),
        ),
    );
    if (way.bytes === 0) return [];
    const targets = machines.flatMap((target) => {
      if (target.id === machine.id) return [];
      const moved = { ...subject, machine: target.id };
      const others = subjects.filter((one) => one !== subject);
      const left =
        target.budget === null ? Infinity : target.budget - high(target.id, [...others, moved]);
      return left >= 0 ? [{ id: target.id, left }] : [];
    });
    const best = targets.reduce<(typeof targets)[number] | null>(
      (roomiest, one) => (roomiest === null || one.left > roomiest.left ? one : roomiest),
      null,
    );
    return best === null ? [] : [{ kind: 'move', instrument: id, to: best.id, ...way }];
  });
  const kinds: readonly (readonly WayToFit[])[] = [
    sensible(settling),
    unloading.filter(({ kind }) => kind === 'trim'),
    unloading.filter(({ kind }) => kind === 'unload-by'),
    moving,
  ];
  return kinds.flatMap((ways) => [...ways].sort(bestFirst));
};

const plainly = ({ settle }: Subject, names: readonly DoubtName[]): Subject['settle'] => ({
  ...Object.fromEntries(names.map((name) => [name, 'plain'] as const)),
  ...settle,
});

/** Each doubt, and any two of them. */
const groupsOf = (doubts: readonly DoubtName[]): readonly (readonly DoubtName[])[] => {
  const open = doubtNames.filter((name) => doubts.includes(name) && name !== 'damage');
  const pairs = open.flatMap((a, i) => open.slice(i + 1).map((b) => [a, b]));
  return [...open.map((name) => [name]), ...pairs];
};

type Settling = Extract<WayToFit, { kind: 'settle' }>;

/** Two doubts are named together only where they free more than one by one. */
const sensible = (ways: readonly Settling[]): readonly Settling[] => {
  const alone = new Map(
    ways.flatMap(({ doubts, bytes }) =>
      doubts.length === 1 ? [[doubts[0]!, bytes] as const] : [],
    ),
  );
  return ways.filter(({ doubts, bytes, fits }) => {
    if (bytes === 0) return false;
    if (doubts.length === 1) return true;
    const [a, b] = doubts.map((name) =>
      ways.find((one) => one.doubts.length === 1 && one.doubts[0] === name)!,
    );
    const sum = alone.get(doubts[0]!)! + alone.get(doubts[1]!)!;
    return bytes > sum || (fits && !a!.fits && !b!.fits);
  });
};
