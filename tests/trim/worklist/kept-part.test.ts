import { expect, test } from 'vitest';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import type { Start, StartEvent } from '../../../src/instruments/program.ts';
import type { Range } from '../../../src/terms/range.ts';
import { keptPart } from '../../../src/trim/worklist/kept-part.ts';

const start = (zone: number, event: StartEvent, keys: Range): Start => ({
  ...{ zone, articulation: 0, event, keys, gate: 0, fades: [], doubt: 0, hold: 0 },
  ...{ releaseSeconds: 0, velocities: [1, 127] },
});

/** Zone 0 is a transition to C4 and D4, and back to them from keys around; zone 1 a release; 2 a message's. */
const instrument = {
  articulations: [{ name: 'A', switch: null, layers: [] }],
  program: {
    starts: [
      start(0, 'note-on', [60, 62]),
      start(0, 'note-off', [48, 72]),
      start(1, 'note-off', [64, 65]),
      start(2, 'change', [0, 127]),
    ],
  },
} as unknown as Instrument;

test.each<readonly [readonly number[], readonly Range[]]>([
  [[0], [[60, 62]]],
  [[1], [[64, 65]]],
  [
    [0, 1],
    [
      [60, 62],
      [64, 65],
    ],
  ],
  [[2], []],
])('of zones %j the keys that sound', (zones, keys) => {
  expect(keptPart(instrument, { articulations: [0] }, zones)!.keys).toEqual(keys);
});
