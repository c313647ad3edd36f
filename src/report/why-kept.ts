import type { PlanArticulation, PlanInstrument, PlanPin, Reason } from '../keep/plan.ts';

const other: ReadonlySet<Reason> = new Set(['pinned', 'headroom', 'grain']);

/** True when what is kept without a note is kept for doubts only, not by choice or for the player. */
const isCaution = ({ kept }: PlanInstrument): boolean =>
  !kept.some(({ reasons }) => reasons.some((reason) => other.has(reason)));

/** True when a pin takes the articulation by name, or the instrument as a whole. */
const isPinned = (
  { name }: PlanArticulation,
  { id }: PlanInstrument,
  pins: readonly PlanPin[],
): boolean =>
  pins.some(
    (pin) =>
      pin.instrument === id &&
      (pin.articulation === name ||
        (pin.articulation === null && pin.keys === null && pin.velocities === null)),
  );

/** True when nothing but the grain of the player keeps what no note reaches. */
const isWithTheRest = ({ kept }: PlanInstrument): boolean =>
  kept.length > 0 &&
  kept.every(
    ({ reasons }) => reasons.includes('played') || reasons.every((reason) => reason === 'grain'),
  );

/** Why an articulation stays that no note reaches, in less and less room. */
export const whyKept = (
  articulation: PlanArticulation,
  instrument: PlanInstrument,
  pins: readonly PlanPin[],
): readonly string[] => {
  if (isPinned(articulation, instrument, pins)) return ['pinned'];
  if (isWithTheRest(instrument)) return ['with the rest'];
  return isCaution(instrument) ? ['kept to be safe', 'to be safe'] : ['kept unplayed', 'unplayed'];
};
