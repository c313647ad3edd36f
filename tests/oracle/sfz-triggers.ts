/** What a region is started by, and the keys and velocities of it. */
import { limits } from './sfz-gates.ts';
import { integer, playingKey, type OracleRegion } from './sfz-regions.ts';

/** A pair of limits: brought to the border where it is out of range, or ignored. */
export type Readings = ReturnType<typeof limits>;

/** Attack, first and legato; anything that is no trigger is one too. */
export function triggerOf(region: OracleRegion): string {
  return region.opcodes.get('trigger') ?? 'attack';
}

export function startsByRelease(region: OracleRegion): boolean {
  return ['release', 'release_key'].includes(triggerOf(region));
}

/** The keys that play a region, in both readings of limits out of range. */
export function keysOfRegion(region: OracleRegion): Readings {
  return limits(playingKey(region, 'lokey'), playingKey(region, 'hikey'), [0, 127], -1);
}

export function velocitiesOf(region: OracleRegion): Readings {
  return limits(integer(region, 'lovel'), integer(region, 'hivel'), [0, 127]);
}
