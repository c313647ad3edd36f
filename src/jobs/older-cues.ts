import { sha256 } from '../files/digest.ts';
import type { ComparedCue } from '../keep/completeness.ts';
import { planCues } from '../keep/plan-cues.ts';
import { partsOf } from '../midi/parts.ts';
import { readMidi } from '../midi/read-midi.ts';
import { playCue } from '../playback/play-cue.ts';
import { asExported } from '../playback/play-copy.ts';
import type { FileUsage, LeftCue } from '../playback/zone-usage.ts';
import { InputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';

/**
 * What cues that were left out for newer versions hold: a newer one that lacks their tracks looks
 * incomplete, whether or not they count. What can't be read tells nothing.
 */
export const olderCues = async (
  files: Files,
  leftOut: readonly LeftCue[],
): Promise<readonly ComparedCue[]> => {
  const usage: FileUsage[] = [];
  for (const { cue, version, path } of leftOut) {
    try {
      const bytes = await files.read(path);
      const score = readMidi(bytes, path);
      const file = { cue, version, path, sha256: sha256(bytes), file: usage.length };
      const nothing = { copies: [], tainted: [] };
      usage.push(playCue(file, score, partsOf(score), nothing, new Map(), asExported));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
  }
  return planCues(usage);
};
