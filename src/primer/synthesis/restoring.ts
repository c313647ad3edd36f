import { controllers, powerOnValue } from '../../terms/controllers.ts';
import { programFor } from '../../playback/play-cue.ts';
import type { LaneGroup, LaneMessage, PrimingStep } from '../lanes.ts';
import { hearing } from './performer.ts';

/** From the end of the notes until things are put back, in seconds. */
const pause = 0.5;

/**
 * Messages that put back what steps have moved: controllers to what the instrument powers on with,
 * bend and pressure to rest. What chooses an articulation is left as it is: each cue chooses its own.
 */
export const restoring = (
  group: LaneGroup,
  steps: readonly { readonly step: PrimingStep }[],
): readonly LaneMessage[] => {
  const last = new Map<string, LaneMessage>();
  for (const message of steps.flatMap(({ step }) => step.messages)) {
    const { lane, status, data1 } = message;
    const kind = status >> 4;
    const number = kind === 0xb || kind === 0xa ? data1 : 0;
    last.set([lane.track, lane.port, lane.channel, kind, number].join(), message);
  }
  return [...last.values()].flatMap((message): readonly LaneMessage[] => {
    const { status, data1, data2 } = message;
    const at = { ...message, seconds: pause };
    switch (status >> 4) {
      case 0xa:
        return data2 === 0 ? [] : [{ ...at, data2: 0 }];
      case 0xb: {
        const value = usualValue(group, message);
        return value === null || value === data2 ? [] : [{ ...at, data2: value }];
      }
      case 0xd:
        return data1 === 0 ? [] : [{ ...at, data1: 0 }];
      case 0xe:
        return data1 === 0 && data2 === 64 ? [] : [{ ...at, data1: 0, data2: 64 }];
      default:
        return [];
    }
  });
};

/** What a controller is before any message, as it arrives; null for those that choose. */
const usualValue = ({ copies }: LaneGroup, { lane, data1 }: LaneMessage): number | null => {
  if (data1 === controllers.bankSelectMsb || data1 === controllers.bankSelectLsb) return null;
  for (const { instrument, copy } of copies) {
    const source = hearing(copy.sources, lane);
    if (source === null) continue;
    const number = source.transform.controllers.get(data1) ?? data1;
    const { signals } = programFor(instrument, copy.articulation);
    for (const signal of signals) {
      if (signal.kind !== 'controller' || signal.number !== number) continue;
      return signal.selects === true ? null : (signal.initial ?? powerOnValue(number));
    }
  }
  return powerOnValue(data1);
};
