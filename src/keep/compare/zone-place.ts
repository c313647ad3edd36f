import type { Instrument } from '../../instruments/instrument.ts';
import { toRanges, type Range } from '../../terms/range.ts';
import type { DiffPlace } from './diff.ts';

/** Where the zones of an instrument lie, by the number that the source knows them by. */
export const zonePlaces = (instrument: Instrument): ReadonlyMap<number, DiffPlace> => {
  const { zones, program, articulations } = instrument;
  const keys = zones.map((): Set<number> => new Set());
  const velocities = zones.map((): Range | null => null);
  for (const start of program.starts) {
    // A start by a controller has values where others have keys.
    if (start.event === 'change') continue;
    const [lo, hi] = start.keys;
    for (let key = lo; key <= hi; key++) keys[start.zone]!.add(key);
    velocities[start.zone] = spanOf(velocities[start.zone]!, start.velocities);
  }
  const controllers = zones.map((): DiffPlace['controllers'] => []);
  for (const { layers } of articulations) {
    for (const layer of layers) {
      for (const zone of layer.zones) {
        if (controllers[zone]!.length === 0) controllers[zone] = layer.controllers;
      }
    }
  }
  return new Map(
    zones.map(({ id }, zone) => [
      id,
      {
        keys: toRanges(keys[zone]!),
        velocities: velocities[zone]!,
        controllers: controllers[zone]!,
      },
    ]),
  );
};

const spanOf = (a: Range | null, b: Range): Range =>
  a === null ? b : [Math.min(a[0], b[0]), Math.max(a[1], b[1])];
