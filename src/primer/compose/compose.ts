import { chooseBars } from '../excerpts/choose-bars.ts';
import { findBars } from '../excerpts/find-bars.ts';
import { wantedKey, type WantedZone } from '../excerpts/wanted-zone.ts';
import type { Compared } from '../hearing/compare.ts';
import type { Synthesis } from '../lanes.ts';
import type { NotPrimed } from '../primer.ts';
import { Copies } from './copies.ts';
import { draft, type Draft } from './draft.ts';
import type { Excerpt } from './excerpt.ts';
import type { ComposeInput } from './input.ts';
import { makeExcerpt } from './make-excerpt.ts';
import { synthesiseAll, zoneKey } from './synthesised.ts';

/** A primer that was played and loads nothing but what stays. */
export interface Composed {
  readonly draft: Draft;
  readonly copies: Copies;
  readonly syntheses: readonly Synthesis[];
  readonly excerpts: readonly Excerpt[];
  /** By {@link wantedKey}, what the notes made for the primer load without any excerpt. */
  readonly made: ReadonlySet<string>;
  readonly notPrimed: readonly (WantedZone & { readonly because: NotPrimed['because'] })[];
}

/** Bars that are played before a bar, tried one after the other: what a zone needs may begin there. */
const leads = [0, 1, 2, 4, 8, Infinity];

/** What does harm is taken out so often at most. */
const mostRepairs = 12;

/**
 * Makes a primer: notes first, then bars of the cues for what no notes can load. All of it is played,
 * and whatever would load what does not stay is taken out again.
 *
 * @returns null when that does not come to an end
 */
export const compose = async (input: ComposeInput): Promise<Composed | null> => {
  const copies = new Copies(input);
  const { syntheses: all, reasons } = await synthesiseAll(copies);
  const withNotes = input.excerpts !== 'only';
  let syntheses = all.map((one) => (withNotes ? one : silenced(one)));
  let alone = draft(input, copies, syntheses, []);
  for (let round = 0; alone.bad.tracks.size > 0; round++) {
    if (round === mostRepairs) return null;
    syntheses = syntheses.map((one) => (plays(one, alone.bad.tracks) ? silenced(one) : one));
    alone = draft(input, copies, syntheses, []);
  }
  const made = loadedKeys(alone.compared);
  const { excerpts, result } =
    input.excerpts === 'never'
      ? { excerpts: [], result: alone }
      : await addExcerpts(input, copies, syntheses, alone);
  if (result.bad.excerpts.size > 0 || result.bad.tracks.size > 0) return null;
  const notPrimed = missingOf(result.compared).map((one) => ({
    ...one,
    because: whyNot(copies, one) ?? reasons.get(zoneKey(one.instrument, one.zone)) ?? 'conditions',
  }));
  return { draft: result, copies, syntheses, excerpts, made, notPrimed };
};

const whyNot = (copies: Copies, one: WantedZone): NotPrimed['because'] | null => {
  if (copies.hasNone(one.instrument, one)) return 'no-track';
  if (copies.isTied(one.instrument, one)) return 'tied';
  return copies.isPicked(one.instrument, one) ? 'picked' : null;
};

/** Adds bars until all is loaded that bars can load. */
const addExcerpts = async (
  input: ComposeInput,
  copies: Copies,
  syntheses: readonly Synthesis[],
  alone: Draft,
): Promise<{ readonly excerpts: readonly Excerpt[]; readonly result: Draft }> => {
  let excerpts: readonly Excerpt[] = [];
  let result = alone;
  // Bars are tried by themselves first: all that is played before them takes its time.
  const bare = syntheses.map(silenced);
  /** Bars that load what does not stay: not with this lead. */
  for (const lead of leads) {
    const blocked = new Set<string>();
    for (let repair = 0; repair < mostRepairs; repair++) {
      const missing = missingOf(result.compared).filter(
        (one) => !copies.hasNone(one.instrument, one),
      );
      const bars = findBars(missing, input.instruments, input.files).filter(
        ({ taken }) => !blocked.has(barKey(taken.file, taken.bar)),
      );
      if (bars.length === 0) break;
      const added: Excerpt[] = [];
      for (const run of chooseBars(bars, lead)) {
        added.push({ run, ...(await makeExcerpt(input, copies.tracks, run)) });
      }
      const tried = draft(input, copies, bare, added);
      const stillMissing = new Set(missingOf(tried.compared).map(wantedKey));
      const good = added.filter(({ run }, i) => {
        const isBad = tried.bad.excerpts.has(i);
        const helps = [...run.zones].some((zone) => !stillMissing.has(zone));
        if (isBad || !helps) {
          for (let bar = run.from; bar <= run.to; bar++) blocked.add(barKey(run.file, bar));
        }
        return !isBad && helps;
      });
      // Behind all the others it may be another matter: then one of them may do still.
      const oneByOne = good.length > 1 ? good.map((one) => [one]) : [];
      for (const some of [good, ...oneByOne]) {
        if (some.length === 0) continue;
        const longer = draft(input, copies, syntheses, [...excerpts, ...some]);
        const isBad = longer.bad.excerpts.size > 0 || longer.bad.tracks.size > 0;
        const loadsMore = missingOf(longer.compared).length < missingOf(result.compared).length;
        if (isBad || !loadsMore) continue;
        excerpts = [...excerpts, ...some];
        result = longer;
        if (some === good) break;
      }
      for (const { run } of good) {
        for (let bar = run.from; bar <= run.to; bar++) blocked.add(barKey(run.file, bar));
      }
    }
  }
  return { excerpts, result };
};

const barKey = (file: number, bar: number): string => `${String(file)} ${String(bar)}`;

/** Nothing is played for a group, and so nothing put back. */
const silenced = (synthesis: Synthesis): Synthesis => ({
  ...synthesis,
  steps: [],
  restore: [],
  primed: synthesis.primed.map(() => []),
  chances: synthesis.chances.map(() => null),
});

const plays = ({ group }: Synthesis, tracks: ReadonlySet<number>): boolean =>
  group.copies.some(({ copy }) => copy.sources.some(({ track }) => tracks.has(track)));

/** What a primer lacks. */
export const missingOf = (compared: ReadonlyMap<string, Compared>): readonly WantedZone[] =>
  [...compared].flatMap(([instrument, { missing }]) =>
    missing.map(({ copy, zone }) => ({ instrument, copy, zone })),
  );

const loadedKeys = (compared: ReadonlyMap<string, Compared>): ReadonlySet<string> =>
  new Set(
    [...compared].flatMap(([instrument, { loaded }]) =>
      loaded.map(({ copy, zone }) => wantedKey({ instrument, copy, zone })),
    ),
  );
