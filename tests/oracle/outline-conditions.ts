/** What has to hold for a zone of an outline to start: what is chosen, and its `when`. */
import { doubtBits, plain } from './doubts.ts';
import { switchKeysOf, type OutlineArticulation, type OutlineData } from './outline-data.ts';
import type { OutlineEvent, OutlineReel } from './outline-data.ts';
import { othersHeld } from './outline-held.ts';
import { isWithin, type OutlineLayer } from './outline-zones.ts';
import { known, type Condition } from './sfz-conditions.ts';
import { isController, isNoteOn } from './sfz-data.ts';
import type { OracleInstrument } from './sfz-regions.ts';
import {
  choosingSignal,
  controllerSignal,
  none,
  pressureSignal,
  type MessageSignal,
} from './sfz-signals.ts';

const { noSwitch, stretch } = doubtBits;

export interface OutlineCopy {
  readonly outline: OutlineData;
  readonly reel: OutlineReel;
  /** Whether the copy ever chooses an articulation. */
  readonly chooses: boolean;
}

/** Outlines give controllers no first values of their own: those at power-on hold. */
const nothingGiven: OracleInstrument = {
  regions: [],
  switchDefaults: [],
  firstValues: new Map(),
  curves: new Map(),
};

export function controller(number: number): MessageSignal {
  return controllerSignal(nothingGiven, number);
}

const every = Array.from({ length: 128 }, (_, value) => value);

/** An outline and all that one copy of it plays. What chooses is any message that is asked for. */
export function copyOf(outline: OutlineData, reel: OutlineReel): OutlineCopy {
  const asksFor = ({ switch: by }: OutlineArticulation, event: OutlineEvent): boolean => {
    switch (by?.kind) {
      case 'key':
        return isNoteOn(event) && event.data1 === by.key;
      case 'channel':
        return isNoteOn(event) && event.channel + 1 === by.channel;
      case 'program':
        return event.kind === 'program' && event.data1 === by.program;
      case 'controller':
        return isController(event, by.number) && isWithin(event.data2, by.values);
      default:
        return false;
    }
  };
  const chooses = reel.some(({ events }) =>
    events.some((event) => outline.articulations.some((one) => asksFor(one, event))),
  );
  return { outline, reel, chooses };
}

/** Whether the articulation is chosen. @param channel - Of the note-on, 0-15. */
export function isChosen(
  copy: OutlineCopy,
  { switch: by, when }: OutlineArticulation,
  channel: number,
): Condition[] {
  if (when === 'player-decides' || by?.kind === 'none') return [];
  const { outline, reel, chooses } = copy;
  // With one articulation there is nothing to choose.
  if (outline.articulations.length === 1) return [];
  if (by === null) return [known([true, noSwitch])];
  if (by.kind === 'channel') {
    // As tables have it: a note on a channel that nothing asks for has chosen nothing.
    const isNamed = outline.articulations.some(
      ({ switch: other }) => other?.kind === 'channel' && other.channel === channel + 1,
    );
    return [known([channel + 1 === by.channel, plain], [!isNamed, noSwitch])];
  }
  if (by.kind === 'key') {
    const keys = switchKeysOf(outline);
    const signal = choosingSignal('switch', none, keys, reel, chooses, (event) =>
      isNoteOn(event) && keys.includes(event.data1) ? event.data1 : null,
    );
    return [[{ signal, accepts: (value) => value === by.key, doubts: plain }]];
  }
  if (by.kind === 'program') {
    const signal = choosingSignal('program', 0, every, reel, chooses, (event) =>
      event.kind === 'program' ? event.data1 : null,
    );
    return [[{ signal, accepts: (value) => value === by.program, doubts: plain }]];
  }
  const first = controller(by.number).initial[0]!.value;
  const name = `controller ${by.number}`;
  const signal = choosingSignal(name, first, every, reel, chooses, (event) =>
    event.kind === 'controller' && event.data1 === by.number ? event.data2 : null,
  );
  return [[{ signal, accepts: (value) => isWithin(value, by.values), doubts: plain }]];
}

/**
 * `when`, but for its velocity. `held` counts the event's own key as the event leaves it, in whatever
 * order the tick is read: down after a note-on, up where it goes up.
 */
export function otherConditions(
  { when }: OutlineArticulation,
  channel: number,
  key: number,
  isDown: boolean,
  silent: readonly number[],
): Condition[] {
  if (when === null || when === 'player-decides') return [];
  const { controllers, pressure, held } = when;
  const others = othersHeld(channel, key, 0, silent);
  return [
    ...controllers.map(([number, values]): Condition => [
      {
        signal: controller(number),
        accepts: (value) => isWithin(value, values),
        doubts: plain,
      },
    ]),
    ...(pressure === null
      ? []
      : [
          [
            {
              signal: pressureSignal,
              accepts: (value: number) => isWithin(value, pressure),
              doubts: plain,
            },
          ],
        ]),
    ...(held === null
      ? []
      : [
          [
            {
              signal: others,
              accepts: (value: number) => isWithin(value + (isDown ? 1 : 0), held),
              doubts: plain,
            },
          ],
        ]),
  ];
}

/** Velocity layers and the velocity of `when`: both have to allow it. */
export function velocityFits(
  layers: readonly OutlineLayer[],
  { when }: OutlineArticulation,
  velocity: number,
): Condition[] {
  const asked = when === null || when === 'player-decides' ? null : when.velocity;
  return [
    ...(asked === null ? [] : [known([isWithin(velocity, asked), plain])]),
    ...layers
      .filter(({ of }) => of === 'velocity')
      .map(({ values, printed }) =>
        known([isWithin(velocity, values), plain], [!printed, stretch]),
      ),
  ];
}
