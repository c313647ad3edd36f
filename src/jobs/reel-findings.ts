import type { OlderVersions } from '../midi/cue-versions.ts';
import { sourceKey, type FileUsage, type SourceUsage } from '../playback/zone-usage.ts';
import { matchPattern } from '../template/patterns/match-pattern.ts';
import { routingFindings } from '../template/routes/routing-findings.ts';
import type { Template } from '../template/template.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { olderVersionFindings, reelFindings } from './read-cues.ts';

/** A reel whose cues are played. */
export interface Played {
  /** In reel order. */
  readonly usage: readonly FileUsage[];
  /** The files that `usage` comes from, in the order of their first cues. */
  readonly sources: readonly SourceUsage[];
  /** Versions that were left aside for newer ones. */
  readonly older: readonly OlderVersions[];
}

/**
 * All that is told of a reel once its files are played: what each of them showed, then what they show
 * together. It depends on nothing but usage, so usage that was stored tells the same.
 *
 * @param isPartial only some cues of the reel were asked for
 */
export const foundInReel = (
  template: Template,
  { usage, sources, older }: Played,
  isPartial: boolean,
): readonly Finding[] => {
  const bySource = new Map(sources.map((one): [string, FileUsage[]] => [sourceKey(one), []]));
  for (const one of usage) bySource.get(sourceKey(one))!.push(one);
  const cuesOf = (source: SourceUsage): readonly FileUsage[] => bySource.get(sourceKey(source))!;
  const routing = sources.flatMap((source) =>
    cuesOf(source).flatMap(({ cue }) =>
      Object.hasOwn(source.routing, cue) ? [source.routing[cue]!] : [],
    ),
  );
  return [
    ...sources.flatMap((source) => [...source.findings, ...cuesOf(source).flatMap(lostNotes)]),
    ...reelFindings(usage),
    ...joinsAcrossFiles(template, usage),
    ...routingFindings(template, routing, isPartial),
    ...olderVersionFindings(older),
  ];
};

const lostNotes = ({ cue, path, copies }: FileUsage): readonly Finding[] =>
  copies
    .filter((copy) => copy.lostNotes > 0)
    .map(({ copy: track, lostNotes: notes }) =>
      finding('warning', 'notes-out-of-range', path, { cue, track, notes }),
    );

/** Each file of a cue has copies of its own, so tracks that are joined must be in one file. */
const joinsAcrossFiles = (
  { path, routes }: Template,
  usage: readonly FileUsage[],
): readonly Finding[] => {
  const joins = routes.filter(({ join }) => join !== null);
  const cues = new Set(usage.map(({ cue }) => cue));
  if (joins.length === 0 || cues.size === usage.length) return [];
  return [...cues].flatMap((cue) => {
    const files = usage.filter((file) => file.cue === cue);
    return joins
      .filter(({ tracks }) => {
        const hasOne = ({ tracks: own }: FileUsage): boolean =>
          own.some(({ name }) => tracks.some((one) => matchPattern(one, name ?? '') !== null));
        return files.filter(hasOne).length > 1;
      })
      .map(({ rule, at }) => finding('warning', 'join-across-files', path, { cue, rule }, at));
  });
};
