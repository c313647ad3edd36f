import { compareLoaded, type Compared } from '../hearing/compare.ts';
import { hear } from '../hearing/hear.ts';
import { primerMark } from '../is-primer.ts';
import type { LaneMessage, Synthesis, WrittenPrimer } from '../lanes.ts';
import { writePrimer } from '../score/write-primer.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import { clock } from '../../midi/timeline.ts';
import { isPedalUp } from '../synthesis/restoring.ts';
import type { Copies } from './copies.ts';
import type { Excerpt } from './excerpt.ts';
import type { ComposeInput } from './input.ts';
import { restoringExcerpts } from './restoring-excerpts.ts';

/** A primer as it would be, and what it loads. */
export interface Draft {
  readonly written: WrittenPrimer;
  /** By instrument. */
  readonly compared: ReadonlyMap<string, Compared>;
  /** Of the excerpts those that load what does not stay; and tracks of notes that do. */
  readonly bad: { readonly excerpts: ReadonlySet<number>; readonly tracks: ReadonlySet<number> };
}

/**
 * Writes a primer and plays it. What excerpts have moved is put back at the end, as far as that loads
 * nothing that does not stay.
 */
export const draft = (
  input: ComposeInput,
  copies: Copies,
  syntheses: readonly Synthesis[],
  excerpts: readonly Excerpt[],
): Draft => {
  const restore = restoringExcerpts(syntheses, excerpts, input.base.score);
  const whole = draftWith(input, copies, syntheses, excerpts, restore);
  const { tracks } = whole.bad;
  if (restore.length === 0 || (tracks.size === 0 && whole.bad.excerpts.size === 0)) return whole;
  return draftWith(input, copies, syntheses, excerpts, restore.filter(isPedalUp));
};

const draftWith = (
  { plan, instruments, base, play, pace, machine }: ComposeInput,
  copies: Copies,
  syntheses: readonly Synthesis[],
  excerpts: readonly Excerpt[],
  restore: readonly LaneMessage[],
): Draft => {
  const { format } = base.score;
  const division = base.score.timelines[0]?.division;
  const written = writePrimer({
    // SMF 1.0, "Header Chunks": format 0 has one track, so a track that is added makes it format 1.
    format: format === 0 && copies.tracks.all.length === 1 ? 0 : 1,
    tracks: copies.tracks.all,
    ticksPerQuarter: division?.kind === 'metrical' ? division.ticksPerQuarter : 480,
    text: primerMark,
    syntheses,
    excerpts: excerpts.map(({ events }) => events),
    restore,
    pace,
  });
  const usage = play(written.bytes);
  const bad = { excerpts: new Set<number>(), tracks: new Set<number>() };
  const compared = new Map<string, Compared>();
  for (const planned of plan.instruments) {
    const instrument = instruments.get(planned.id)!;
    const own = compareLoaded(instrument, planned, hear(instrument, planned, usage));
    const isElsewhere = (machine ?? planned.machine) !== planned.machine;
    compared.set(planned.id, isElsewhere ? { ...own, zones: 0, loaded: [], missing: [] } : own);
    for (const { at } of own.needless) {
      const excerpt = excerptAt(usage, at, written.excerptsAt);
      if (excerpt < 0) bad.tracks.add(at[0]);
      else bad.excerpts.add(excerpt);
    }
  }
  return { written, compared, bad };
};

/** The excerpt that an event lies in, or -1. */
const excerptAt = (
  { timelines, tracks }: FileUsage,
  [track, tick]: readonly [track: number, tick: number, event: number],
  begins: readonly number[],
): number => {
  const seconds = clock(timelines[tracks[track]!.timeline]!).secondsAt(tick);
  return begins.findLastIndex((begin) => begin <= seconds + 1e-6);
};
