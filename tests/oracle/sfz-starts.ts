/**
 * Everything that may start a region in a cue: each event is asked, and each note that an event ends.
 */
import { doubtBits, minimal, plain } from './doubts.ts';
import { bendOf, isController, isNoteOn, type SfzCue } from './sfz-data.ts';
import {
  cutStarts,
  keyUpStarts,
  noteOns,
  releaseStarts,
  strikeStarts,
  type Cutter,
  type StartEvent,
} from './sfz-ends.ts';
import { fineSpan, scaledBend } from './sfz-gates.ts';
import { pedalHistories } from './sfz-pedals.ts';
import { integer, numbersOf, type OracleInstrument } from './sfz-regions.ts';
import type { OracleRegion } from './sfz-regions.ts';
import { bendSignal, controllerSignal, polyPressureSignal, pressureSignal } from './sfz-signals.ts';
import { within } from './sfz-switches.ts';
import { triggerOf } from './sfz-triggers.ts';

const { engine } = doubtBits;

export function startEvents(
  instrument: OracleInstrument,
  region: OracleRegion,
  cue: SfzCue,
): StartEvent[] {
  const { events } = cue;
  const trigger = triggerOf(region);
  const byController = controllerStarts(instrument, region, cue);
  if (trigger === 'release') {
    const histories = pedalHistories(instrument, region, events);
    const cuts = instrument.regions.some((other) => other.opcodes.has('off_by'))
      ? [...noteOns(cue), ...releasesOfAll(instrument, cue)]
      : [];
    return withoutRepeats([
      ...byController,
      ...releaseStarts(histories, cue),
      ...histories.flatMap((history) => strikeStarts(history, cue)),
      ...histories.flatMap((history) => cutStarts(history, cue, cuts)),
    ]);
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
  return withoutRepeats([...byController, ...byNote, ...keyUpStarts(cue)]);
}

/** All that the ends of notes start of some region, but for what the end of the cue ends. */
function releasesOfAll(instrument: OracleInstrument, cue: SfzCue): Cutter[] {
  const starts = instrument.regions.flatMap((region) => {
    const trigger = triggerOf(region);
    if (trigger === 'release_key') return keyUpStarts(cue);
    if (trigger !== 'release') return [];
    return releaseStarts(pedalHistories(instrument, region, cue.events), cue);
  });
  return withoutRepeats(starts)
    .filter(({ moment }) => moment.index < cue.events.length)
    .map(({ moment, doubts }) => ({ index: moment.index, doubts }));
}

/** Starts that are alike but for their doubts, with minimal sets of these. */
function withoutRepeats(starts: readonly StartEvent[]): StartEvent[] {
  const alike = new Map<string, StartEvent[]>();
  for (const start of starts) {
    const { why, note, key, moment } = start;
    const name = [why, moment.index, note, key, moment.fixed?.name].join();
    alike.set(name, [...(alike.get(name) ?? []), start]);
  }
  return [...alike.values()].flatMap((group) =>
    minimal(group.map(({ doubts }) => doubts)).map((doubts) => ({ ...group[0]!, doubts })),
  );
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
