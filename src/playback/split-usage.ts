import type { Instrument } from '../instruments/instrument.ts';
import type { StartEvent } from '../instruments/program.ts';
import type { Part } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { cueFinder, secondsInto, type Stretches } from '../midi/stretches.ts';
import { clock } from '../midi/timeline.ts';
import type { RoutedCopy } from '../template/routed.ts';
import { carriedRanges } from './carried-ranges.ts';
import { copyStream } from './copies.ts';
import { withClasses } from './fewer-classes.ts';
import { musicWithin, partsWithin } from './parts-within.ts';
import { programFor, type CueFile } from './play-cue.ts';
import type { CopyUsage, FileUsage, UsageClass } from './zone-usage.ts';

/** One of the cues that a file holds. */
export interface CueInReel extends CueFile {
  /** What of the file it is; null: all of it. */
  readonly stretches: Stretches;
}

/** A file, and what it was played through. */
export interface PlayedFile {
  readonly score: Score;
  readonly parts: readonly Part[];
  /** The copies of the usage, in its order. */
  readonly copies: readonly RoutedCopy[];
  readonly instruments: ReadonlyMap<string, Instrument>;
}

/**
 * Parts the usage of a file that holds several cues. The file was played once, so each cue finds
 * controllers, switches, keys and pedals as the one before has left them; a start belongs to the cue in
 * which the event lies that proves it. A key or pedal that goes up where the next cue begins ends what
 * the cue before has played.
 *
 * @param whole with every place of every class
 * @param cues those of the file's cues that count
 * @param places how many places of a class are kept
 */
export const splitUsage = (
  whole: FileUsage,
  cues: readonly CueInReel[],
  played: PlayedFile,
  places: number,
): readonly FileUsage[] => {
  const { score } = played;
  const all = cues.map(({ stretches }) => stretches);
  const parts = partsWithin(score, played.parts, all);
  const time = clock(score.timelines[0]!);
  const end = score.tracks.reduce((last, track) => Math.max(last, track.end), 0);
  const unread = firstUnread(score);
  const isDamaged = all.map((stretches) => (stretches?.at(-1)?.to ?? end) >= unread);
  const copies = whole.copies.map((copy, i) =>
    splitCopy(copy, played, played.copies[i]!, all, places),
  );
  return cues.map(({ cue, version, file, stretches }, i): FileUsage => {
    const own = parts[i]!;
    return {
      ...whole,
      cue,
      version,
      file,
      stretches,
      parts: own.length,
      notes: own.reduce((sum, { notes }) => sum + notes, 0),
      seconds: Math.round(secondsInto(stretches, time, end) * 1000) / 1000,
      music: musicWithin(score, own, stretches, time),
      state: isDamaged[i]! ? 'damaged' : 'read',
      tainted: isDamaged[i]! ? whole.tainted : [],
      tracks: whole.tracks.map((track, index) => ({
        ...track,
        notes: own.reduce((sum, part) => sum + (part.track === index ? part.notes : 0), 0),
      })),
      copies: copies.flatMap((byCue): CopyUsage[] => {
        const { copy, events } = byCue[i]!;
        const isUnknown = copy.damaged && isDamaged[i]!;
        const isHere = events > 0 || copy.classes.length > 0 || isUnknown;
        return isHere ? [{ ...copy, damaged: isUnknown }] : [];
      }),
    };
  });
};

/** The tick from which on something of the file is unknown. */
const firstUnread = ({ missingTracks, tracks }: Score): number =>
  missingTracks > 0
    ? 0
    : tracks.reduce((first, { damage }) => Math.min(first, damage?.tick ?? Infinity), Infinity);

/** What one cue asks of a copy. */
interface CopyOfCue {
  readonly copy: CopyUsage;
  /** Messages that it gets there. */
  readonly events: number;
}

const splitCopy = (
  copy: CopyUsage,
  { score, instruments }: PlayedFile,
  routed: RoutedCopy,
  cues: readonly Stretches[],
  places: number,
): readonly CopyOfCue[] => {
  const program = programFor(instruments.get(routed.instrument)!, routed.articulation);
  const stream = copyStream(score, routed, program);
  const cueAt = cueFinder(cues);
  const counts = cues.map(() => ({ events: 0, notes: 0, lost: 0 }));
  for (let at = 0; at < stream.length; at++) {
    const count = counts[cueAt(stream.tick[at]!)];
    if (count === undefined) continue;
    count.events++;
    if (stream.status[at]! >> 4 === 0x9 && stream.data2[at]! > 0) count.notes++;
  }
  for (const tick of stream.lost) {
    const count = counts[cueAt(tick)];
    if (count !== undefined) count.lost++;
  }
  const classes = splitClasses(copy.classes, cues, places);
  const controllers = carriedRanges(program, stream, cues);
  return counts.map(({ events, notes, lost }, i) => ({
    events,
    copy: withClasses(
      { ...copy, notes, lostNotes: lost, controllers: controllers[i]! },
      classes[i]!,
    ),
  }));
};

/** What ends a note, not what begins one. */
const ends: ReadonlySet<StartEvent> = new Set(['release', 'note-off']);

const splitClasses = (
  classes: readonly UsageClass[],
  cues: readonly Stretches[],
  places: number,
): readonly (readonly UsageClass[])[] => {
  const cueAt = cueFinder(cues);
  const all = cues.map((): UsageClass[] => []);
  for (const one of classes) {
    const before = ends.has(one.event) ? 1 : 0;
    const own = new Map<number, UsageClass['witnesses'][number][]>();
    for (const place of one.witnesses) {
      const cue = cueAt(Math.max(0, place[1] - before));
      const known = own.get(cue);
      if (known === undefined) own.set(cue, [place]);
      else known.push(place);
    }
    for (const [cue, witnesses] of own) {
      const count = witnesses.length;
      all[cue]?.push({ ...one, count, witnesses: witnesses.slice(0, places) });
    }
  }
  return all;
};
