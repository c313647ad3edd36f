import { doubtNames, type DoubtName } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';
import type { Settlement, Settlements } from '../../../terms/settlement.ts';
import type { Headroom } from '../../../template/template.ts';
import type { PlanPin, PlanSettings } from '../../plan.ts';
import {
  amount,
  group,
  isGroup,
  list,
  oneOf,
  orNull,
  seven,
  text,
  truth,
  type Shape,
} from './shape.ts';

export const doubt: Shape<DoubtName> = oneOf(...doubtNames);

export const answer: Shape<Settlement> = oneOf('plain', 'accept');

/** Only the doubts that were answered are in it. */
export const settlements: Shape<Settlements> = (value, faults) => {
  if (!isGroup(value)) {
    faults.add('a group of answers');
    return;
  }
  for (const name of doubtNames) {
    if (Object.hasOwn(value, name)) faults.within(name, answer, value[name]);
  }
};

export const range: Shape<Range> = (value, faults) => {
  if (!Array.isArray(value) || value.length !== 2) {
    faults.add('a list of two whole numbers');
    return;
  }
  faults.within(0, seven, value[0]);
  faults.within(1, seven, value[1]);
};

export const headroom = group<Headroom>({ keys: seven, velocity: seven, controller: seven });

export const settings = group<PlanSettings>({
  instrument: orNull(text),
  settle: settlements,
  headroom,
  pins: list(
    group<PlanPin>({
      instrument: text,
      articulation: orNull(text),
      keys: orNull(range),
      velocities: orNull(range),
    }),
  ),
  slack: amount,
  allowUnmapped: truth,
  without: list(text),
  newest: truth,
  acceptPartial: list(text),
  split: orNull(oneOf('markers')),
});
