/**
 * Everything that may start a region in a cue: each event is asked, and each note that an event ends.
 */
import { doubtBits, plain } from './doubts.ts';
import { bendOf, isController, isNoteOn, type SfzCue, type SfzStart } from './sfz-data.ts';
import { fineSpan, limits, scaledBend } from './sfz-gates.ts';
import { pedalHistories, soundsAt, type PedalHistory, type PlayedNote } from './sfz-pedals.ts';
import { integer, numbersOf, playingKey, type OracleInstrument } from './sfz-regions.ts';
import type { OracleRegion } from './sfz-regions.ts';
import { bendSignal, controllerSignal, polyPressureSignal, pressureSignal } from './sfz-signals.ts';
import type { Moment } from './sfz-signals.ts';
import { within, type Span } from './sfz-switches.ts';

const { engine, pedalHeld } = doubtBits;

export interface StartEvent {
  readonly why: SfzStart['why'];
  readonly moment: Moment;
  /** 0-15; of the note-on, for what is released. */
  readonly channel: number;
  /** null: started by a controller. */
  readonly key: number | null;
  readonly velocity: number | null;
  /** The key of a poly pressure message that starts the region. */
  readonly pressedKey?: number;
  /** What it takes for the event to be a start of the region, before any condition. */
  readonly doubts: number;
}

/** Attack, first and legato; anything that is no trigger is one too. */
export function triggerOf(region: OracleRegion): string {
  return region.opcodes.get('trigger') ?? 'attack';
}

export function startEvents(
  instrument: OracleInstrument,
  region: OracleRegion,
  cue: SfzCue,
): StartEvent[] {
  const { events } = cue;
  const trigger = triggerOf(region);
  const histories = pedalHistories(instrument, region, events);
  const byController = controllerStarts(instrument, region, cue);
  if (trigger === 'release') {
    const canCut = instrument.regions.some((other) => other.opcodes.has('off_by'));
    return [
      ...byController,
      ...withoutRepeats(histories.flatMap((history) => releaseStarts(history, cue))),
      ...withoutRepeats(histories.flatMap((history) => strikeStarts(history, cue, canCut))),
    ];
  }
  const noteDoubts = trigger === 'release_key' ? engine : plain;
  const byNote = events.flatMap((event, index): StartEvent[] =>
    isNoteOn(event)
      ? [
          {
            why: 'note',
            moment: { events, index },
            channel: event.channel,
            key: event.data1,
            velocity: event.data2,
            doubts: noteDoubts,
          },
        ]
      : [],
  );
  if (trigger !== 'release_key') return [...byController, ...byNote];
  // Pedals have no say in when a key goes up: one of their readings is as good as all.
  return [...byController, ...byNote, ...keyUpStarts(histories[0]!, cue)];
}

/** Drops what an earlier reading of the pedals, the plain one first, starts just so for no more. */
function withoutRepeats(starts: readonly StartEvent[]): StartEvent[] {
  return starts.filter(
    (start, i) =>
      !starts
        .slice(0, i)
        .some(
          (other) =>
            other.moment.index === start.moment.index &&
            other.channel === start.channel &&
            other.key === start.key &&
            other.velocity === start.velocity &&
            (other.doubts & start.doubts) === other.doubts,
        ),
  );
}

/** What a note gives to the region that its end starts. */
function ofNote(
  why: SfzStart['why'],
  note: PlayedNote,
  cue: SfzCue,
  index: number,
  doubts: number,
) {
  const { channel, key, velocity } = note;
  return { why, moment: { events: cue.events, index }, channel, key, velocity, doubts };
}

/** All sound off ends notes as well, but an engine may let nothing start then. */
function allSoundOff({ events }: SfzCue, index: number): number {
  const event = events[index];
  return event !== undefined && isController(event, 120) ? engine : plain;
}

function releaseStarts({ notes, doubts }: PedalHistory, cue: SfzCue): StartEvent[] {
  return notes.map((note) => {
    const index = note.release ?? cue.events.length;
    const more = note.release === null ? pedalHeld : allSoundOff(cue, index);
    return ofNote('release', note, cue, index, doubts | more);
  });
}

function keyUpStarts({ notes }: PedalHistory, cue: SfzCue): StartEvent[] {
  return notes.flatMap((note) =>
    note.keyUp === null
      ? []
      : [ofNote('release-key', note, cue, note.keyUp, allSoundOff(cue, note.keyUp))],
  );
}

/** An engine may end a note when its key is struck again; or any note, where regions cut others. */
function strikeStarts({ notes, doubts }: PedalHistory, cue: SfzCue, canCut: boolean): StartEvent[] {
  return cue.events.flatMap((event, index) => {
    if (!isNoteOn(event)) return [];
    return notes
      .filter((note) => soundsAt(note, index))
      .flatMap((note): StartEvent[] => {
        const again = note.channel === event.channel && note.key === event.data1;
        if (!again && !canCut) return [];
        return [ofNote(again ? 'restrike' : 'cut', note, cue, index, doubts | engine)];
      });
  });
}

/** on_loccN, on_hiccN and the same in fractions: every message with a value inside. */
function controllerStarts(
  instrument: OracleInstrument,
  region: OracleRegion,
  { events }: SfzCue,
): StartEvent[] {
  const ranges = [
    ...numbersOf(region, 'on_locc', 'on_hicc').map((number) => {
      const lowest = integer(region, `on_locc${number}`) ?? 0;
      return { number, span: [lowest, integer(region, `on_hicc${number}`) ?? 127] as const };
    }),
    ...numbersOf(region, 'on_lohdcc', 'on_hihdcc').map((number) => ({
      number,
      span: fineSpan(region, 'on_lohdcc', 'on_hihdcc', number),
    })),
  ];
  return ranges.flatMap(({ number, span }) =>
    events.flatMap((event, index): StartEvent[] => {
      const start = (name: string, value: number, scaled = value): StartEvent[] =>
        within(scaled, span)
          ? [
              {
                ...{ why: 'controller', channel: event.channel, key: null, velocity: null },
                moment: { events, index, fixed: { name, value } },
                ...(number === 130 ? { pressedKey: event.data1 } : {}),
                doubts: plain,
              },
            ]
          : [];
      if (number <= 127 && isController(event, number)) {
        return start(controllerSignal(instrument, number).name, event.data2);
      }
      if (number === 128 && event.kind === 'bend') {
        return start(bendSignal.name, bendOf(event), scaledBend(bendOf(event)));
      }
      if (number === 129 && event.kind === 'pressure') {
        return start(pressureSignal.name, event.data1);
      }
      if (number === 130 && event.kind === 'poly-pressure') {
        return start(polyPressureSignal(null).name, event.data2);
      }
      return [];
    }),
  );
}

/** The keys that play a region, in both readings of limits out of range. */
export function keysOfRegion(region: OracleRegion): { readonly plain: Span; readonly loose: Span } {
  return limits(playingKey(region, 'lokey'), playingKey(region, 'hikey'), [0, 127], -1);
}
