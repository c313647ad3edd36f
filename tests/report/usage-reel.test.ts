import { expect, test } from 'vitest';
import type { CueNotes } from '../../src/playback/note-usage.ts';
import { reelParts, reelTotals } from '../../src/report/usage-reel.ts';
import { usage } from './fixtures/usage.ts';

test('parts of one name, port and channel are one over the reel', () => {
  const [violins, harp] = reelParts(usage.cues);
  expect(violins).toEqual({
    cues: 2,
    trackName: 'Vln 1 leg',
    port: 1,
    channel: 1,
    notes: 1_504,
    keys: [
      [12, 12],
      [14, 14],
      [50, 88],
    ],
    velocities: [1, 101],
    controllers: [
      { number: 1, events: 2_300, range: [0, 127] },
      { number: 11, events: 1_840, range: [30, 127] },
      { number: 64, events: 12, range: [0, 127] },
    ],
    programs: [],
    likelySwitches: [12, 14],
  });
  expect(harp).toMatchObject({ cues: 2, notes: 107, velocities: [38, 90] });
  expect(harp?.programs).toEqual([{ bankMsb: 0, bankLsb: 0, program: 46 }]);
});

test('every part is in exactly one sum', () => {
  const sums = reelParts(usage.cues);
  expect(sums).toHaveLength(4);
  expect(sums.reduce((total, { notes }) => total + notes, 0)).toBe(
    usage.cues.reduce((total, { notes }) => total + notes, 0),
  );
});

test('a cue counts where a part plays notes, and once, however many tracks bear its name', () => {
  const [first] = usage.cues as [CueNotes];
  const [part, , , silent] = first.parts as [
    CueNotes['parts'][number],
    CueNotes['parts'][number],
    CueNotes['parts'][number],
    CueNotes['parts'][number],
  ];
  const [twice, never] = reelParts([{ ...first, parts: [part, part, silent] }]);
  expect(twice).toMatchObject({ cues: 1, notes: 2 * part.notes });
  expect(never).toMatchObject({ cues: 0, notes: 0, velocities: null });
});

test('the same name on another channel is another part', () => {
  const [first] = usage.cues as [CueNotes];
  const [part] = first.parts as [CueNotes['parts'][number]];
  expect(reelParts([{ ...first, parts: [part, { ...part, channel: 2 }] }])).toHaveLength(2);
});

test('sums over the reel', () => {
  expect(reelTotals(usage)).toEqual({ seconds: 3_859.25, bars: 1_467, notes: 2_223, parts: 6 });
  expect(reelTotals({ ...usage, cues: [] })).toEqual({ seconds: 0, bars: 0, notes: 0, parts: 0 });
});
