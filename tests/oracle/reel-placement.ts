/** Where instruments could stand, by trying every machine for each. 8 on 3 machines: 6561 ways. */
import {
  allCues,
  figureTogether,
  instrumentFigure,
  machineIds,
  type Reel,
  type ReelInstrument,
} from './reel-memory.ts';

export interface Placement {
  /** Likely bytes of the instruments that move, each by itself, with what the whole reel needs. */
  readonly bytes: number;
  /** How many instruments move. */
  readonly moved: number;
  /** Machine by instrument: all ways that are equally good. */
  readonly ways: readonly Readonly<Record<string, string>>[];
}

/** The cheapest placements that keep every machine within its budget. Null: there is none. */
export function placements(reel: Reel): Placement | null {
  const cues = allCues(reel);
  const weights = new Map(
    reel.instruments.map((one) => [one.id, instrumentFigure(one, cues).likely]),
  );
  let best: Placement | null = null;
  for (const placed of everyWay(reel.instruments, machineIds(reel))) {
    const moving = placed.filter((one, index) => one.machine !== reel.instruments[index]!.machine);
    const bytes = moving.reduce((total, { id }) => total + weights.get(id)!, 0);
    const worse = best === null ? -1 : bytes - best.bytes || moving.length - best.moved;
    if (worse > 0 || !allFit(reel, placed, cues)) continue;
    const way = Object.fromEntries(placed.map((one) => [one.id, one.machine]));
    const equals: Placement['ways'] = worse === 0 && best !== null ? best.ways : [];
    best = { bytes, moved: moving.length, ways: [...equals, way] };
  }
  return best;
}

function allFit(reel: Reel, placed: readonly ReelInstrument[], cues: readonly number[]): boolean {
  return machineIds(reel).every((id) => {
    const here = placed.filter((one) => one.machine === id);
    return figureTogether(here, cues, reel.machines[id] ?? null).fits !== false;
  });
}

/** The instruments with a machine each, in every way. */
function everyWay(
  instruments: readonly ReelInstrument[],
  machines: readonly string[],
): ReelInstrument[][] {
  return instruments.reduce<ReelInstrument[][]>(
    (ways, one) =>
      ways.flatMap((placed) => machines.map((machine) => [...placed, { ...one, machine }])),
    [[]],
  );
}
