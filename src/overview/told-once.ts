import { joinedBars } from '../keep/check/joined-bars.ts';
import type { PlanMachine } from '../keep/plan.ts';
import type { OverviewMiss } from './overview-proof.ts';
import { inBoth } from './miss-of-unit.ts';

/** Units that the same notes ask for become one: several layers, microphones, or players' parts. */
export const toldOnce = (
  misses: readonly OverviewMiss[],
  machines: readonly PlanMachine[],
  sharesNothing: boolean,
): OverviewMiss[] => {
  const told = new Map<string, OverviewMiss>();
  for (const miss of misses) {
    const { instrument, machine, copy, zones, doubts, notes, doubtfulNotes } = miss;
    const { notesAtMost, doubtfulNotesAtMost, askedBy, keys, velocities, places } = miss;
    const same = [
      ...[instrument, machine, copy, zones > 0, doubts, notes, doubtfulNotes],
      ...[notesAtMost, doubtfulNotesAtMost, askedBy, keys, velocities, places],
    ];
    const key = JSON.stringify(same);
    const known = told.get(key);
    if (known === undefined) told.set(key, miss);
    else told.set(key, both(known, miss, machines, sharesNothing));
  }
  return [...told.values()];
};

const both = (
  a: OverviewMiss,
  b: OverviewMiss,
  machines: readonly PlanMachine[],
  sharesNothing: boolean,
): OverviewMiss => {
  const bytes = a.bytes + b.bytes;
  const machine = machines.find(({ id }) => id === a.machine);
  const budget = machine?.budget ?? null;
  // Each may fit alone and both not.
  const isRoom = budget === null || machine!.bytes.high + bytes <= budget;
  return {
    ...a,
    articulations: [...new Set([...a.articulations, ...b.articulations])],
    zones: a.zones + b.zones,
    doubtfulZones: a.doubtfulZones + b.doubtfulZones,
    bytes,
    bytesAtMost: !sharesNothing,
    ways: inBoth(a.ways, b.ways),
    bars: joinedBars([a, b]),
    doubtfulBars: joinedBars([{ bars: a.doubtfulBars }, { bars: b.doubtfulBars }]),
    steps: [...new Set([...a.steps, ...b.steps])].sort((one, other) => one - other),
    fits: a.fits === null || b.fits === null ? null : a.fits && b.fits && isRoom,
  };
};
