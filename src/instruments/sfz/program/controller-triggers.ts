import { plain } from '../../../terms/doubt.ts';
import { bendOf, controllerLimits, extended } from './controller-gates.ts';
import type { Parts } from './parts.ts';
import type { RangeReading } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';
import { anyVelocity, type Trigger } from './start-draft.ts';

/**
 * Messages that start a region (documentation, `on_loccN`): its key starts it as well, unless it is
 * out of reach. Controllers from 131 on stand for what no message sets.
 *
 * @param gate null when the region's conditions can never hold
 */
export const controllerTriggers = (
  opcodes: RegionOpcodes,
  gate: number | null,
  keys: readonly RangeReading[],
  parts: Parts,
): readonly Trigger[] => {
  if (gate === null) return [];
  return controllerLimits(opcodes, 'on_').flatMap(({ number, readings }): readonly Trigger[] => {
    const common = { event: 'change', gate, doubt: plain, velocities: anyVelocity } as const;
    switch (number) {
      case extended.bend:
        return [
          {
            ...common,
            change: parts.signal({ kind: 'bend' }),
            keys: readings.map(({ range, doubt }) => ({ range: bendOf(range), doubt })),
          },
        ];
      case extended.channelPressure:
        return [{ ...common, change: parts.signal({ kind: 'pressure' }), keys: readings }];
      case extended.polyPressure: {
        const change = parts.signal({ kind: 'poly-pressure', of: 'any-key' });
        return [{ ...common, change, keys: readings, velocities: keys }];
      }
      default:
        return number > 127
          ? []
          : [{ ...common, change: parts.controller(number), keys: readings }];
    }
  });
};
