import { findArticulation } from '../instruments/find-articulation.ts';
import { everyArticulation, type Instrument } from '../instruments/instrument.ts';
import { fold } from '../notation/fold.ts';
import { nearest } from '../notation/nearest.ts';
import type { ZoneMask } from './zone-mask.ts';

/** Readings of no zone and of all; they stand before articulations of these names. */
const empty = 'empty';
const full = 'full';

/** What a reading that has no zones may have been meant to be called. */
export const nearestReading = ({ articulations }: Instrument, of: string): string | null =>
  nearest(of, [empty, full]) ?? findArticulation(articulations, of).near;

/**
 * The zones that are loaded in the state a reading is of (see `Reading.of`): none, all, or those of
 * one articulation with what belongs to every articulation. A SoundFont preset may be called by its
 * whole name, by its numbers or by its name alone; all that are called so count.
 *
 * @returns null when the instrument has no such articulation
 */
export const readingZones = (instrument: Instrument, of: string): ZoneMask | null => {
  const { articulations, zones, program } = instrument;
  const wanted = fold(of);
  if (wanted === empty) return new Uint8Array(zones.length);
  if (wanted === full) return new Uint8Array(zones.length).fill(1);
  const { indices } = findArticulation(articulations, of);
  if (indices.length === 0) return null;
  const loaded = articulations.map(
    ({ name }, i) => indices.includes(i) || name === everyArticulation,
  );
  const mask = new Uint8Array(zones.length);
  for (const { articulation, zone } of program.starts) if (loaded[articulation]!) mask[zone] = 1;
  return mask;
};
