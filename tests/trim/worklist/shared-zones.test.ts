import { expect, test } from 'vitest';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { standardHold, type Start } from '../../../src/instruments/program.ts';
import { computed } from '../../../src/memory/calibration.ts';
import { defaultPlayer, type Grain } from '../../../src/template/player.ts';
import { writeActionKey } from '../../../src/trim/worklist/action-key.ts';
import { LoadedZones } from '../../../src/trim/worklist/loaded-zones.ts';
import type { Slot, SlottedInstrument } from '../../../src/trim/worklist/slots.ts';
import { stepsOf } from '../../../src/trim/worklist/steps.ts';

/** Zone 1 is of both articulations; nothing starts zone 3. Zones have other numbers than places. */

const start = (articulation: number, zone: number): Start => ({
  ...{ zone, articulation, event: 'note-on', gate: 0, fades: [], doubt: 0, hold: 0 },
  ...{ releaseSeconds: 0, keys: [60 + zone, 60 + zone], velocities: [1, 127] },
});

const layer = (zones: readonly number[]) => ({
  ...{ velocity: [1, 127] as const, controllers: [], zones },
});

const instrument: Instrument = {
  ...{ id: 'i', source: 'i', sha256: 'x', playedAs: 'single', samples: [], presetZones: [] },
  zones: [0, 1, 2, 3].map((zone) => ({
    ...{ id: 10 + zone, samples: [], group: 0, key: null, microphone: null },
  })),
  articulations: [
    { name: 'A', switch: null, layers: [layer([0, 1])] },
    { name: 'B', switch: null, layers: [layer([1, 2])] },
  ],
  program: {
    ...{ scope: 'copy', retriggers: false, signals: [], gates: [[]], holds: [standardHold] },
    // The second articulation comes first among the starts.
    starts: [start(1, 1), start(1, 2), start(0, 0), start(0, 1)],
    ...{ zones: 4, articulations: 2 },
  },
  findings: [],
};

/** Key and what stays, for a player that lets go of `unloads`. */
const stepsFor = (
  unloads: Grain,
  wanted: readonly number[],
  now: readonly number[] = [1, 1, 1, 1],
): readonly (readonly [string, unknown])[] => {
  const slot: Slot = { copy: null, isSpare: false, count: 1, wanted: Uint8Array.from(wanted) };
  const one: SlottedInstrument = {
    ...{ instrument, planned: null as never, machine: 'a', calibration: computed },
    ...{ player: { ...defaultPlayer, unloads }, slots: [slot] },
  };
  const loaded = new LoadedZones([one]);
  loaded.set(
    slot,
    [0, 1, 2, 3].filter((zone) => now[zone] === 0),
    'unload',
  );
  return stepsOf([one], loaded).map(({ key, keeps }) => [
    writeActionKey(key).replace(/ #[\da-f]{8}$/u, ''),
    keeps?.keys ?? null,
  ]);
};

test('what a part that stays holds too, is not dropped and is none of the other', () => {
  expect(stepsFor('articulation', [1, 1, 0, 0])).toEqual([
    ['unload i/B: 12', null],
    ['unload i: 13', null],
  ]);
  expect(stepsFor('sample', [1, 1, 0, 0])).toEqual([
    ['unload i/B: 12', [[61, 61]]],
    ['unload i: 13', null],
  ]);
});

test('what several parts drop goes with the first of them, in the order of the instrument', () => {
  expect(stepsFor('sample', [1, 0, 0, 1])).toEqual([
    ['unload i/A: 11', [[60, 60]]],
    ['unload i/B: 12', null],
  ]);
});

test('loads come first, and name all that the part has then', () => {
  expect(stepsFor('sample', [1, 1, 0, 0], [0, 1, 1, 0])).toEqual([
    ['load i/A: 10', [[60, 61]]],
    ['unload i/B: 12', [[61, 61]]],
  ]);
});

test('where nothing stays, all goes in one line', () => {
  expect(stepsFor('layer', [0, 0, 0, 0], [1, 0, 1, 1])).toEqual([['unload i: 10,12-13', null]]);
});
