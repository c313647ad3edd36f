import { DiskFiles } from '../files/disk-files.ts';
import { isDamaged } from '../midi/score.ts';
import { clock } from '../midi/timeline.ts';
import { countNotes } from '../playback/count-notes.ts';
import type { CueNotes, NoteUsage } from '../playback/note-usage.ts';
import { lengthOf, type CueFile } from '../playback/play-cue.ts';
import type { Files } from '../terms/files.ts';
import type { Finding } from '../terms/finding.ts';
import { findReel } from './find-reel.ts';
import { olderVersionFindings, readReel, reelFindings, type ReadCue } from './read-cues.ts';
import type { Watched } from './work-step.ts';

export interface UsageOptions extends Watched {
  /** Files, folders or patterns. */
  readonly cues: readonly string[];
  /** Ids of cues to leave out. */
  readonly without?: readonly string[];
  /** Of each cue only the newest version counts. */
  readonly newest?: boolean;
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/**
 * Counts what the score plays: parts, keys, velocities, controllers, programs, likely switches. No
 * instrument is needed.
 *
 * @throws {InputError} when an argument names nothing
 * @throws {UsageError} when a cue to leave out does not exist
 */
export const usage = async (options: UsageOptions): Promise<NoteUsage> => {
  const files = options.files ?? new DiskFiles();
  const cues = new Map<string, CueNotes>();
  const findings: Finding[] = [];
  const reel: CueFile[] = [];
  const { without = [], newest = false } = options;
  const found = await findReel(files, options.cues, { without, newest });
  for await (const read of readReel(files, found)) {
    const { cue } = read.file;
    const count = { at: reel.length + 1, of: found.files.length };
    await options.onStep?.({ doing: 'playing', name: cue, count });
    const before = cues.get(cue);
    const own = notesOf(read);
    cues.set(cue, before === undefined ? own : joined(before, own));
    findings.push(...read.findings);
    reel.push(read.file);
  }
  return {
    schema: 'keepset/usage@1',
    cues: [...cues.values()],
    findings: [...findings, ...reelFindings(reel), ...olderVersionFindings(found.older)],
  };
};

const notesOf = ({ file, score }: ReadCue): CueNotes => {
  const { cue: id, path, sha256, version } = file;
  const named = { id, files: [{ path, sha256 }], version };
  if (score === null) {
    return { ...named, state: 'unreadable', seconds: 0, bars: 0, notes: 0, parts: [] };
  }
  const parts = countNotes(score, file.file);
  return {
    ...named,
    state: isDamaged(score) ? 'damaged' : 'read',
    seconds: lengthOf(score),
    bars: score.tracks.reduce((last, { timeline, end }) => {
      const { bar } = clock(score.timelines[timeline]!).placeAt(Math.max(0, end - 1));
      return Math.max(last, bar);
    }, 0),
    notes: parts.reduce((sum, part) => sum + part.notes, 0),
    parts,
  };
};

const states = ['read', 'damaged', 'unreadable'] as const;

/** Several files of one cue are one cue. */
const joined = (a: CueNotes, b: CueNotes): CueNotes => ({
  ...a,
  files: [...a.files, ...b.files],
  state: states[Math.max(states.indexOf(a.state), states.indexOf(b.state))]!,
  seconds: Math.max(a.seconds, b.seconds),
  bars: Math.max(a.bars, b.bars),
  notes: a.notes + b.notes,
  parts: [...a.parts, ...b.parts],
});
