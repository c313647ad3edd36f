import { groupsOf } from '../lane-groups.ts';
import type { LaneGroup, Synthesis } from '../lanes.ts';
import type { NotPrimed } from '../primer.ts';
import { synthesise } from '../synthesis/synthesise.ts';
import type { Copies } from './copies.ts';

/** Zones go from copy to copy so often at most. */
const mostRounds = 8;

/** Notes made for a primer, and why some zones have none. */
export interface Synthesised {
  readonly syntheses: readonly Synthesis[];
  /** By {@link zoneKey}, why the last copy that tried could not start the zone. */
  readonly reasons: ReadonlyMap<string, NotPrimed['because']>;
}

export const zoneKey = (instrument: string, zone: number): string =>
  JSON.stringify([instrument, zone]);

/** Notes for all copies; what one copy can't start, the next one tries. */
export const synthesiseAll = async (copies: Copies): Promise<Synthesised> => {
  const reasons = new Map<string, NotPrimed['because']>();
  const made = new Map<string, Synthesis>();
  let syntheses: readonly Synthesis[] = [];
  for (let round = 0; round < mostRounds; round++) {
    syntheses = groupsOf(await copies.allotted()).map((own) => {
      const group = { ...own, base: copies.base };
      const key = keyOf(group);
      const known = made.get(key) ?? synthesise(group);
      made.set(key, known);
      return known;
    });
    let failed = 0;
    for (const synthesis of syntheses) {
      const { group, notPrimed } = synthesis;
      // Where no other copy's zones come in, these notes are right for what is left as well.
      made.set(keyOf(withoutFailed(synthesis)), {
        ...synthesis,
        group: withoutFailed(synthesis),
        notPrimed: notPrimed.map(() => []),
      });
      group.copies.forEach(({ instrument, copy }, i) => {
        for (const { zone, because } of notPrimed[i] ?? []) {
          reasons.set(zoneKey(instrument.id, zone), because);
          copies.failed(instrument.id, copy.name, zone);
          failed += 1;
        }
      });
    }
    if (failed === 0) break;
  }
  return { syntheses, reasons };
};

const withoutFailed = ({ group, notPrimed }: Synthesis): LaneGroup => ({
  ...group,
  copies: group.copies.map((one, i) => {
    const failed = new Set(notPrimed[i]!.map(({ zone }) => zone));
    return { ...one, wanted: one.wanted.filter((zone) => !failed.has(zone)) };
  }),
});

const keyOf = ({ copies }: LaneGroup): string =>
  JSON.stringify(
    copies.map(({ instrument, copy, wanted }) => [instrument.id, copy.name, copy.sources, wanted]),
  );
