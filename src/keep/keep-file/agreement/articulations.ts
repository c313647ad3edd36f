import type { DroppedZone, KeptZone, PlanArticulation, PlanInstrument } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';

/** Zones of one articulation, as those list it. */
interface Counted {
  zones: number;
  kept: number;
  /** Kept zones that belong to nothing else and are more than somebody's other half. */
  surely: number;
}

export const articulationsAgree = (
  { articulations, kept, dropped }: PlanInstrument,
  found: Disagreements,
): void => {
  const counted = articulations.map((): Counted => ({ zones: 0, kept: 0, surely: 0 }));
  const count = ({ zone, articulations: own }: DroppedZone | KeptZone): readonly Counted[] =>
    [...found.once('zone-articulation', own, zone)].flatMap((index) => {
      const one = counted[index];
      if (one === undefined) {
        found.known('zone-articulation', index, new Set(), zone);
        return [];
      }
      one.zones++;
      return [one];
    });
  for (const zone of dropped) count(zone);
  for (const zone of kept) {
    const own = count(zone);
    for (const one of own) {
      one.kept++;
      // The other half of a stereo sample belongs to those articulations where the first is played.
      if (own.length === 1 && !zone.reasons.includes('linked')) one.surely++;
    }
  }
  articulations.forEach((one, i) => articulationAgrees(one, counted[i]!, found));
};

const articulationAgrees = (
  { name, zones, zonesKept, layers, notes, keys, velocities, bytes }: PlanArticulation,
  counted: Counted,
  found: Disagreements,
): void => {
  found.same('articulation-zones', zones, counted.zones, name);
  // A zone of several articulations may stay for one of them only.
  found.atMost('articulation-zones-kept', zonesKept, counted.kept, name);
  found.atLeast('articulation-zones-kept', zonesKept, counted.surely, name);
  found.atMost('articulation-bytes', bytes.kept, bytes.full, name);
  if (zonesKept === 0) found.atMost('articulation-bytes', bytes.kept, 0, name);
  if (notes === 0) found.atMost('articulation-keys', keys.length, 0, name);
  if ((velocities === null) !== (keys.length === 0)) {
    found.never('articulation-velocities', velocities?.join('-') ?? 'null', name);
  }
  for (const { zones: own, zonesKept: ownKept } of layers) {
    found.atMost('layer-zones', own, zones, name);
    found.atMost('layer-zones-kept', ownKept, Math.min(own, zonesKept), name);
    found.atLeast('layer-zones-kept', ownKept, own - (zones - zonesKept), name);
  }
};
