/** What a player picks by itself: bars of the cues load it, or notes where nobody wants bars. */
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { plan } from '../../src/jobs/plan.ts';
import { primer } from '../../src/jobs/primer.ts';
import type { Primer } from '../../src/primer/primer.ts';
import { cue, note } from '../jobs/small-score.ts';

let folder = '';
const at = (name: string): string => join(folder, name);

const outline = `middle-c: C4
seconds: 1
articulations:
  sustain: { switch: none, keys: C4-G4, sampled: C4..G4 }
  squeak: { when: player-decides, keys: C4-C5, sampled: C4..C5 }
`;

const template = `cues: cues
machines: { a: { memory: 1 GiB, reserve: 0 GiB } }
players: { whole: { loads: whole, shares: copy, unloads: instrument } }
instruments: { fiddle: { outline: fiddle.yaml, player: whole, machine: a } }
routes: [{ track: Fiddle, instrument: fiddle }]
`;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keepset-picked-'));
  await mkdir(at('cues'));
  await writeFile(at('fiddle.yaml'), outline);
  await writeFile(at('keepset.yaml'), template);
  const events = [note(0, 60), note(480, 62), note(9_600, 72)];
  await writeFile(at('cues/1m1.mid'), cue({ name: 'Fiddle', events }));
  const planned = await plan({ template: at('keepset.yaml') });
  await writeFile(at('keep.json'), JSON.stringify(planned));
});

afterAll(() => rm(folder, { recursive: true, force: true }));

const made = async (excerpts: 'auto' | 'never' | 'only'): Promise<Primer> => {
  const choice = { keep: at('keep.json'), template: at('keepset.yaml'), excerpts };
  return (await primer(choice)).primer;
};

const counts = ({ machines }: Primer) =>
  machines.flatMap(({ instruments }) =>
    instruments.map(({ synthesised, excerpted, notPrimed }) => ({
      synthesised,
      excerpted,
      notPrimed,
    })),
  );

/** Its player lets go of no less than all: 8 zones of `sustain`, C4-G4, 13 of `squeak`, C4-C5. */
test('bars of the cues start what the player picks, where no other note does', async () => {
  const result = await made('auto');
  // Notes for `sustain` start what is picked on their keys too; C5 has only the cue's own note, in
  // bar 6 (tick 9600 of 480 a beat); from G#4 to B4 the cue plays nothing.
  expect(counts(result)).toEqual([{ synthesised: 16, excerpted: 1, notPrimed: 4 }]);
  expect(result.excerpts).toMatchObject([{ cue: '1m1', bars: [6, 6], zones: 1 }]);
  expect(result.notPrimed.map(({ key, because }) => [key, because])).toEqual(
    ['G#4', 'A4', 'A#4', 'B4'].map((key) => [`squeak ${key}`, 'picked']),
  );
});

test('without bars it gets notes', async () => {
  const result = await made('never');
  expect(result.excerpts).toEqual([]);
  expect(result.notPrimed).toEqual([]);
  expect(counts(result)).toEqual([{ synthesised: 21, excerpted: 0, notPrimed: 0 }]);
});

test('with bars alone, what the cue plays', async () => {
  const result = await made('only');
  // C4, D4 of both articulations, C5 of one.
  expect(counts(result)).toEqual([{ synthesised: 0, excerpted: 5, notPrimed: 16 }]);
  expect(new Set(result.notPrimed.map(({ because }) => because))).toContain('picked');
});
