import type { Score } from '../../midi/score.ts';
import type { PrimerTrack } from '../lanes.ts';

/** The tracks of an export, as the primer repeats them: names, devices and the port each begins on. */
export const primerTracks = ({ tracks }: Score): readonly PrimerTrack[] =>
  tracks.map(({ name, instrumentName, deviceName, ports }) => ({
    name,
    instrumentName,
    deviceName,
    port: ports[0]?.port ?? 0,
  }));
