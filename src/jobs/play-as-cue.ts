import type { Instrument } from '../instruments/instrument.ts';
import { partsOf } from '../midi/parts.ts';
import { readMidi } from '../midi/read-midi.ts';
import type { Score } from '../midi/score.ts';
import { playCue, type CueFile } from '../playback/play-cue.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { RouteLog } from '../template/routes/route-log.ts';
import { routeScore } from '../template/routes/route-score.ts';
import type { Routed } from '../template/routed.ts';
import type { Template } from '../template/template.ts';
import { routeAsBase } from './route-as-base.ts';

/** A file, routed as if it were a cue, and what it plays. */
export interface PlayedAsCue {
  readonly score: Score;
  readonly routed: Routed;
  readonly usage: FileUsage;
}

/**
 * Plays a file through a template by the rules of one of its cues: rules may be for some cues only, and
 * copies have the names that they have there.
 *
 * @param path as the user named it, for messages
 * @param cue whose rules hold
 * @param format of the export of that cue
 * @throws {InputError} when it is not a MIDI file
 */
export const playAsCue = (
  bytes: Uint8Array,
  path: string,
  cue: CueFile,
  format: Score['format'],
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
): PlayedAsCue => {
  const score = readMidi(bytes, path);
  const parts = partsOf(score);
  const routed = routeAsBase(format, score, parts, (one, own) =>
    routeScore(template, cue.cue, one, own, cue.file, instruments, new RouteLog()),
  );
  const usage = playCue({ ...cue, path }, score, parts, routed, instruments, {
    slack: template.slack,
    controllerRoom: 0,
    furtherRooms: [],
    everyPlace: true,
  });
  return { score, routed, usage };
};
