import { everyArticulation, type Instrument } from '../instruments/instrument.ts';
import { fold } from '../notation/fold.ts';
import type { ZoneMask } from './zone-mask.ts';

/** Readings of no zone and of all; they stand before articulations of these names. */
const empty = 'empty';
const full = 'full';

/** `bank:program` and the name of a SoundFont preset, as its articulation is called. */
const presetName = /^(\d+:\d+) (.*)$/su;

/** The halves of a preset's name, which may stand for it; none of other articulations. */
const halves = (name: string): readonly string[] => presetName.exec(name)?.slice(1) ?? [];

/** All that a reading of the instrument may be called. */
export const readingNames = ({ articulations }: Instrument): readonly string[] => [
  empty,
  full,
  ...articulations.flatMap(({ name }) => [name, ...halves(name)]),
];

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
  const whole = articulations.map(({ name }) => fold(name) === wanted);
  const chosen = whole.includes(true)
    ? whole
    : articulations.map(({ name }) => halves(name).some((half) => fold(half) === wanted));
  if (!chosen.includes(true)) return null;
  const loaded = articulations.map(({ name }, i) => chosen[i]! || name === everyArticulation);
  const mask = new Uint8Array(zones.length);
  for (const { articulation, zone } of program.starts) if (loaded[articulation]!) mask[zone] = 1;
  return mask;
};
