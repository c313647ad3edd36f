import { withoutVersion } from '../midi/cue-name.ts';
import type { FileUsage } from '../playback/zone-usage.ts';

/** One version of a cue, or a cue that has none. */
export interface CueVersion {
  readonly id: string;
  readonly version: number | null;
  readonly files: readonly FileUsage[];
}

/** A cue with its versions, the newest last. */
export interface VersionedCue {
  /** Its number, without a version. */
  readonly cue: string;
  readonly versions: readonly CueVersion[];
}

/** The cues of a reel; what bears no version is older than what does. @param files in reel order */
export const cueVersions = (files: readonly FileUsage[]): readonly VersionedCue[] => {
  const cues = new Map<string, Map<string, FileUsage[]>>();
  for (const file of files) {
    const number = file.version === null ? file.cue : withoutVersion(file.cue);
    let versions = cues.get(number);
    if (versions === undefined) cues.set(number, (versions = new Map<string, FileUsage[]>()));
    const own = versions.get(file.cue);
    if (own === undefined) versions.set(file.cue, [file]);
    else own.push(file);
  }
  return [...cues].map(([cue, versions]) => ({
    cue,
    versions: [...versions]
      .map(([id, own]) => ({ id, version: own[0]!.version, files: own }))
      .sort((a, b) => (a.version ?? -1) - (b.version ?? -1)),
  }));
};
