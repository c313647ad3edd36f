import type { FileUsage } from '../../playback/zone-usage.ts';
import { cueVersions, type VersionedCue } from '../cue-versions.ts';

/** Cues that are held against a plan of others, as if they had come later. */
export interface Trial {
  readonly kind: 'cue' | 'revision';
  /** Id of the cue, its number where it has several versions; of a revision the newer version. */
  readonly name: string;
  /** What the plan is made of, in reel order. */
  readonly rest: readonly FileUsage[];
  /** What is held against it. */
  readonly own: readonly FileUsage[];
}

/**
 * Each cue of a reel against the others, and each version of a cue against the others with the one
 * before it. Cues that could not be read prove nothing, and neither does a cue without others.
 *
 * @param files in reel order
 */
export const trialsOf = (files: readonly FileUsage[]): readonly Trial[] => {
  const cues = cueVersions(files);
  const without = ({ versions }: VersionedCue): readonly FileUsage[] => {
    const own = new Set(versions.flatMap((version) => version.files));
    return files.filter((file) => !own.has(file));
  };
  const inTurn = cues.map((one): Trial => {
    const { cue, versions } = one;
    const own = versions.flatMap((version) => version.files);
    const name = versions.length === 1 ? versions[0]!.id : cue;
    return { kind: 'cue', name, rest: without(one), own };
  });
  const revisions = cues.flatMap((one) => {
    const rest = without(one);
    return one.versions.slice(1).flatMap((newer, i): readonly Trial[] => {
      const older = one.versions[i]!;
      if (!older.files.every(wasRead)) return [];
      return [
        {
          kind: 'revision',
          name: newer.id,
          rest: files.filter((file) => rest.includes(file) || older.files.includes(file)),
          own: newer.files,
        },
      ];
    });
  });
  return [...inTurn, ...revisions].filter(
    ({ rest, own }) => rest.some(wasRead) && own.every(wasRead),
  );
};

const wasRead = ({ state }: FileUsage): boolean => state !== 'unreadable';
