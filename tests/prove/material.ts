import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { needs } from '../tools.ts';

/**
 * Real cues and banks from the packages openttd-openmsx, timgm6mb-soundfont and fluid-soundfont-gm of
 * Debian 12. They are read where they are installed and never copied into the project.
 */
export const banks = {
  timgm: '/usr/share/sounds/sf2/TimGM6mb.sf2',
  fluidr3: '/usr/share/sounds/sf2/FluidR3_GM.sf2',
} as const;

const cueFolder = '/usr/share/games/openttd/baseset/openmsx';

/** What of the programs and data a proof may need is on this machine; what is not is said once. */
const here = {
  fluidsynth: (): boolean => needs('fluidsynth', 'fluidsynth'),
  timidity: (): boolean => needs('timidity', 'timidity'),
  cues: (): boolean => needs(cueFolder, 'openttd-openmsx'),
  timgm: (): boolean => needs(banks.timgm, 'timgm6mb-soundfont'),
  fluidr3: (): boolean => needs(banks.fluidr3, 'fluid-soundfont-gm'),
} as const;

/** True when all of them are here. */
export const all = (...what: readonly (keyof typeof here)[]): boolean =>
  what.map((one) => here[one]()).every(Boolean);

/** openttd-openmsx 0.4.2 holds this many cues; another number would be another proof. */
export const cueCount = 31;

/** The real cues, sorted by name; none where they are not installed. */
export const realCues = async (): Promise<readonly string[]> => {
  const names = await readdir(cueFolder).catch((): string[] => []);
  return names
    .filter((name) => name.endsWith('.mid'))
    .sort()
    .map((name) => path.join(cueFolder, name));
};
