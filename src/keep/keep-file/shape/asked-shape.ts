import type { HeadroomStep, PlanHeadroomCurve, PlanRare, RareUnit } from '../../plan.ts';
import { headroom } from './settings-shape.ts';
import { byName, count, fromOne, group, list, orNull, text, whole } from './shape.ts';
import { witness } from './zone-shape.ts';

export const rare = group<PlanRare>({
  fewerThan: fromOne,
  units: list(
    group<RareUnit>({
      instrument: text,
      machine: text,
      copy: orNull(text),
      articulations: list(count),
      zones: list(count),
      samples: count,
      notes: count,
      cues: byName(count),
      witnesses: list(witness),
      bytes: whole,
    }),
  ),
  bytes: whole,
});

export const headroomCurve = group<PlanHeadroomCurve>({
  cues: count,
  revisions: count,
  steps: list(
    group<HeadroomStep>({
      headroom,
      cuesServed: count,
      revisionsServed: count,
      missed: list(text),
      zones: whole,
      bytes: whole,
    }),
  ),
});
