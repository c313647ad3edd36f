import { expect } from 'vitest';
import type { ReelMemory } from '../../src/keep/reel/reel-memory.ts';
import { bank, cue, note } from '../jobs/small-score.ts';
import { keepset, type Ended } from './keepset.ts';
import { test as base, type Folder } from './material.ts';
import { document } from './schemas.ts';

/** Budgets of machine a and machine b, as the template writes them. */
export const rigTemplate = (a: string, b = '8000 B'): string => `cues: cues
machines:
  a: { memory: ${a} }
  b: { memory: ${b} }
players:
  p: { loads: whole, unloads: sample, shares: machine, load-rate: 400 B/s }
defaults: { player: p, machine: a }
instruments:
  keys: { file: bank.sf2, preset: "0:0" }
  strings: { file: bank.sf2, preset: "0:48" }
routes:
  - { track: Keys, instrument: keys }
  - { track: Strings, instrument: strings }
`;

/**
 * Three cues, all on machine a, in bytes by hand (the bank's samples have 100, 200, 400 and 800 frames
 * of two bytes, and the player holds nothing beside them):
 *
 * 1m1: keys 200 + 400. 1m2: strings 1600. 1m3 v2: keys 400, strings 800. All: 600 + 2400.
 */
export const rigCues = {
  'cues/1m1.mid': cue({ name: 'Keys', events: [note(0, 64), note(480, 48)] }),
  'cues/1m2.mid': cue({ name: 'Strings', events: [note(0, 64)] }),
  'cues/1m3 v2.mid': cue(
    { name: 'Keys', events: [note(0, 64)] },
    { name: 'Strings', events: [note(0, 48)] },
  ),
} as const;

/** Nothing is on machine b until it moves there, which is remarked. */
export const remark = '1 more remark with --verbose\n';

/** A folder with the three cues, their bank and a template in which all fits: 4000 bytes for 3000. */
export const test = base.extend<{ rig: Folder }>({
  rig: async ({ folder }, use) => {
    await folder.write({
      ...rigCues,
      'bank.sf2': bank(),
      'keepset.yaml': rigTemplate('4000 B'),
    });
    await use(folder);
  },
});

export const memoryIn = (folder: Folder, ...more: readonly string[]): Promise<Ended> =>
  keepset(['memory', ...more], { cwd: folder.path });

/** The JSON and the exit code; nothing goes to stderr beside JSON. */
export const askedIn = async (
  folder: Folder,
  ...more: readonly string[]
): Promise<{ readonly code: number | null; readonly memory: ReelMemory }> => {
  const { code, stdout, stderr } = await memoryIn(folder, ...more, '--format', 'json');
  expect(stderr).toBe('');
  return { code, memory: document(stdout, 'memory@1') };
};
