import type { Instrument } from '../instruments/instrument.ts';
import { partsOf } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { partsWithin } from '../playback/parts-within.ts';
import type { PlayOptions } from '../playback/play-copy.ts';
import { playCue } from '../playback/play-cue.ts';
import { splitUsage } from '../playback/split-usage.ts';
import { fewPlaces } from '../playback/class-table.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { rulesOfCue } from '../template/routes/matching-rules.ts';
import { RouteLog } from '../template/routes/route-log.ts';
import { routeScore } from '../template/routes/route-score.ts';
import type { Routing } from '../template/routes/routing.ts';
import type { RoutedCopy } from '../template/routed.ts';
import type { Template } from '../template/template.ts';
import type { ReelCue } from './read-cues.ts';

/** What a file that holds several cues asks of the instruments. */
export interface PlayedSplit {
  /** In the order of the cues. */
  readonly usage: readonly FileUsage[];
  /** By cue. */
  readonly routing: Readonly<Record<string, Routing>>;
  /** All copies that it drives. */
  readonly copies: readonly RoutedCopy[];
}

/**
 * Plays a file that holds several cues: once, or once for each set of cues that the rules of the
 * template treat alike.
 */
export const playSplit = (
  score: Score,
  cues: readonly ReelCue[],
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  options: PlayOptions,
): PlayedSplit => {
  const parts = partsOf(score);
  const own = partsWithin(
    score,
    parts,
    cues.map(({ stretches }) => stretches),
  );
  const routing = cues.map(({ file: { cue, file } }, i): readonly [string, Routing] => {
    const log = new RouteLog();
    routeScore(template, cue, score, own[i]!, file, instruments, log);
    return [cue, log.routing()];
  });
  const usage = new Map<string, FileUsage>();
  const copies: RoutedCopy[] = [];
  for (const alike of treatedAlike(template, cues)) {
    const { file } = alike[0]!;
    const log = new RouteLog();
    const routed = routeScore(template, file.cue, score, parts, file.file, instruments, log);
    const all: PlayOptions = { ...options, everyPlace: true };
    const whole = playCue(file, score, parts, routed, instruments, all);
    const played = { score, parts, copies: routed.copies, instruments };
    const places = options.everyPlace === true ? Infinity : fewPlaces;
    const wanted = alike.map(({ file: one, stretches }) => ({ ...one, stretches }));
    for (const one of splitUsage(whole, wanted, played, places)) usage.set(one.cue, one);
    copies.push(...routed.copies);
  }
  return {
    usage: cues.map(({ file }) => usage.get(file.cue)!),
    routing: Object.fromEntries(routing),
    copies,
  };
};

/** Cues for which the same rules count, and whose ports are those of the same file of their cue. */
const treatedAlike = (
  { routes }: Template,
  cues: readonly ReelCue[],
): readonly (readonly ReelCue[])[] => {
  const groups = new Map<string, ReelCue[]>();
  for (const one of cues) {
    const rules = rulesOfCue(routes, one.file.cue).map(Number).join('');
    const key = `${String(one.file.file)} ${rules}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups.values()];
};
