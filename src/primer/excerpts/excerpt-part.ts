import type { Program } from '../../instruments/program.ts';
import { eventsOf, partsOf, type Part } from '../../midi/parts.ts';
import type { Score } from '../../midi/score.ts';
import type { Transform } from '../../template/route.ts';
import type { RoutedCopy } from '../../template/routed.ts';

/** A copy of which bars of a cue are wanted. */
export interface ExcerptCopy {
  /** As the cue is routed. */
  readonly copy: RoutedCopy;
  /** What it plays. */
  readonly program: Program;
  /** The track of the primer on which events of a track of the cue go to the same copy. */
  readonly trackOf: (track: number) => number;
}

/** Events of one track, port and channel of a cue, on their way to a copy. */
export interface ExcerptPart {
  readonly part: Part;
  readonly transform: Transform;
  /** Track of the primer. */
  readonly to: number;
}

/** A channel message of a cue as its file has it. */
export interface CueMessage {
  readonly tick: number;
  readonly from: ExcerptPart;
  readonly status: number;
  readonly data1: number;
  readonly data2: number;
  /** Its place in the track; -1 for what no file says. */
  readonly event: number;
}

/** The parts that drive a copy. */
export const excerptParts = (score: Score, { copy, trackOf }: ExcerptCopy): ExcerptPart[] =>
  partsOf(score).flatMap((part): readonly ExcerptPart[] => {
    const source = copy.sources.find(
      ({ track, port, channels }) =>
        track === part.track && port === part.port && (channels & (1 << part.channel)) !== 0,
    );
    return source === undefined
      ? []
      : [{ part, transform: source.transform, to: trackOf(part.track) }];
  });

/** All messages of some parts in the order in which they reach a copy: by tick, then by track. */
export const messagesOf = (score: Score, parts: readonly ExcerptPart[]): readonly CueMessage[] =>
  parts
    .flatMap((from) => {
      const { events } = score.tracks[from.part.track]!;
      return Array.from(eventsOf(score, from.part), (event) => ({
        tick: events.tick[event]!,
        from,
        status: events.status[event]!,
        data1: events.data1[event]!,
        data2: events.data2[event]!,
        event,
      }));
    })
    .sort((a, b) => a.tick - b.tick || a.from.part.track - b.from.part.track || a.event - b.event);

export const isStrike = ({ status, data2 }: Pick<CueMessage, 'status' | 'data2'>): boolean =>
  status >> 4 === 0x9 && data2 > 0;

/** A key goes up: a note-off, or a note-on of velocity 0. */
export const isLift = ({ status, data2 }: Pick<CueMessage, 'status' | 'data2'>): boolean =>
  status >> 4 === 0x8 || (status >> 4 === 0x9 && data2 === 0);

/** The number by which a controller arrives. */
export const arriving = ({ controllers }: Transform, number: number): number =>
  controllers.get(number) ?? number;

/** The number that arrives as `wanted`; null where none does. */
export const sending = (transform: Transform, wanted: number): number | null => {
  if (arriving(transform, wanted) === wanted) return wanted;
  for (let number = 0; number < 120; number++) {
    if (arriving(transform, number) === wanted) return number;
  }
  return null;
};
