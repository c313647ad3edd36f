import type { CueFileSounds } from '../../playback/cue-sounds.ts';
import { joinSpans, type TimeSpan } from '../../playback/time-spans.ts';
import { momentNamer, type MomentNamer } from './cue-moment.ts';
import type { CueRest, CueRests, InstrumentRests } from './reel-memory.ts';

/** An instrument of a cue, without what it takes. */
export type InstrumentTimes = Omit<InstrumentRests, 'machine' | 'bytes' | 'loadSeconds'>;

/** {@link CueRests} without bytes: instruments in the order in which the cue's files have them. */
export type CueTimes = Pick<CueRests, 'start' | 'end'> & {
  readonly instruments: readonly InstrumentTimes[];
};

/** Rests below this are not worth a look, in seconds: unloading takes as long (common practice). */
const shortest = 2;

/** How many rests are told of an instrument. */
const most = 3;

/**
 * When each instrument of a cue may sound, over all its copies and all files of the cue, and its longest
 * rests. All files begin at the same moment; bars are those of the first that gives a time code, or of
 * the first.
 *
 * A rest ends where the instrument is needed again: at a note, or at a key that is only a switch. What is
 * needed without a note, as some of the cue could not be read, has no notes and no rest.
 *
 * @param files the files of one cue, at least one
 */
export const cueRests = (files: readonly CueFileSounds[]): CueTimes => {
  const length = Math.max(0, ...files.map(({ seconds }) => seconds));
  const name = momentNamer(files);
  const all = new Map<string, { notes: number; spans: TimeSpan[] }>();
  for (const { id, notes, spans } of files.flatMap(({ instruments }) => instruments)) {
    const own = all.get(id) ?? { notes: 0, spans: [] };
    all.set(id, own);
    own.notes += notes;
    own.spans.push(...spans);
  }
  return {
    start: name(0),
    end: name(length),
    instruments: [...all].map(([id, { notes, spans }]): InstrumentTimes => {
      const within = joinSpans(
        spans.map(({ from, to }) => ({ from: Math.min(from, length), to: Math.min(to, length) })),
      );
      return {
        id,
        notes,
        first: name(within[0]!.from),
        last: name(within.at(-1)!.to),
        rests: restsOf(within, length, name),
      };
    }),
  };
};

const restsOf = (
  spans: readonly TimeSpan[],
  length: number,
  name: MomentNamer,
): readonly CueRest[] =>
  [...spans, { from: length, to: length }]
    .map(({ from }, i) => ({
      at:
        i === 0
          ? ('before' as const)
          : i === spans.length
            ? ('after' as const)
            : ('between' as const),
      from: spans[i - 1]?.to ?? 0,
      to: from,
    }))
    .filter(({ from, to }) => to - from >= shortest)
    // The sort is stable: of equals the first comes first.
    .sort((a, b) => thousandths(b.to - b.from) - thousandths(a.to - a.from))
    .slice(0, most)
    .map(({ at, from, to }) => ({
      at,
      from: name(from),
      to: name(to),
      seconds: thousandths(to - from) / 1000,
    }));

const thousandths = (seconds: number): number => Math.round(seconds * 1000);
