import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import { plural } from '../format.ts';

/** Copies by the names of their tracks, which is how a composer knows an instrument; what a route holds one to. */
export const playersOf = ({ copies }: Pick<OverviewInstrument, 'copies'>): readonly string[] => {
  const tracks = new Map<string, readonly (string | null)[]>();
  for (const { name, notes, articulation } of copies) {
    if (notes === 0) continue;
    // A copy that a route holds to an articulation may bear it in its name.
    const at = articulation === null ? -1 : name.lastIndexOf(` as ${articulation}`);
    const track = at < 0 ? name : name.slice(0, at);
    tracks.set(track, [...(tracks.get(track) ?? []), articulation]);
  }
  return [...tracks].map(([track, held]) =>
    held.includes(null) ? track : `${track} for ${held.join(' and ')} only`,
  );
};

type Change = OverviewInstrument['changes'][number];

const distance = (semitones: number): string => {
  if (semitones === 12) return 'an octave';
  return semitones % 12 === 0 ? `${String(semitones / 12)} octaves` : plural(semitones, 'semitone');
};

/**
 * What to write so that an instrument hears what the limits name.
 *
 * @example changeWords({ rules: [], transpose: -12, velocity: 1, controllers: [[11, 1]] })
 * // 'write an octave higher than is named here; CC11 arrives as CC1'
 */
export const changeWords = ({ transpose, velocity, controllers }: Change): string =>
  [
    ...(transpose === 0
      ? []
      : [
          `write ${distance(Math.abs(transpose))} ${transpose < 0 ? 'higher' : 'lower'} than is named here`,
        ]),
    ...(velocity === 1 ? [] : [`velocities arrive multiplied by ${String(velocity)}`]),
    ...controllers.map(([from, to]) => `CC${String(from)} arrives as CC${String(to)}`),
  ].join('; ');
