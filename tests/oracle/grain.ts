/**
 * What a player has to hold when it can't let go of single zones: with a zone stays everything that
 * it would take along.
 */

/** The smallest thing that a player lets go of. */
export type Grain = 'sample' | 'layer' | 'articulation' | 'microphone' | 'instrument';

/** What the grain asks about a zone. Zones that name no articulation (or microphone) are one. */
export interface GrainZone {
  readonly articulation: string | null;
  readonly velocities: readonly [lowest: number, highest: number];
  /** Controller number and range. */
  readonly controllers: readonly (readonly [number: number, lowest: number, highest: number])[];
  readonly microphone: string | null;
}

/** The kept zones, by index, and all that the player holds with them. Ascending. */
export function closedUp(
  zones: readonly GrainZone[],
  kept: readonly number[],
  grain: Grain,
): number[] {
  return zones
    .map((_, index) => index)
    .filter((index) =>
      kept.some((keptIndex) =>
        keptIndex === index ? true : together(zones[keptIndex]!, zones[index]!, grain),
      ),
    );
}

/** Whether a player lets go of two different zones only at once. */
function together(one: GrainZone, other: GrainZone, grain: Grain): boolean {
  switch (grain) {
    case 'sample':
      return false;
    case 'layer':
      // A layer: one articulation, one range of velocities, one set of controller ranges. Its keys
      // and its microphones are all in it.
      return (
        one.articulation === other.articulation &&
        String(one.velocities) === String(other.velocities) &&
        inOrder(one.controllers) === inOrder(other.controllers)
      );
    case 'articulation':
      return one.articulation === other.articulation;
    case 'microphone':
      return one.microphone === other.microphone;
    case 'instrument':
      return true;
  }
}

function inOrder(controllers: GrainZone['controllers']): string {
  return controllers
    .map((one) => one.join(' '))
    .sort()
    .join();
}
