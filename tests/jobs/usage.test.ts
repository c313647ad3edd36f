import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { usage } from '../../src/jobs/usage.ts';
import { cue, cutCue, note, plainCue, program } from './small-score.ts';

test('counts what a cue plays', async () => {
  const files = new MemoryFiles({
    '1m1.mid': cue(
      { name: 'Vln 1', events: [program(0, 48), note(0, 67, 30), note(480, 71, 90)] },
      { name: 'Empty', events: [] },
      { name: 'Vc', events: [note(3840, 36)] },
    ),
  });
  const { cues, findings } = await usage({ cues: ['1m1.mid'], files });
  expect(findings).toEqual([]);
  // 3 840 ticks are eight beats; the last track ends 240 + 480 ticks later: 9.5 beats of half a second.
  expect(cues).toMatchObject([
    { id: '1m1', version: null, state: 'read', seconds: 4.75, bars: 3, notes: 3 },
  ]);
  expect(cues[0]?.parts.map(({ trackName, notes }) => [trackName, notes])).toEqual([
    ['Vln 1', 2],
    ['Vc', 1],
  ]);
});

test('several files of one cue are one cue, as long as the longest', async () => {
  const files = new MemoryFiles({
    'cues/1m1 a.mid': cue({ name: 'A', events: [note(0, 60)] }),
    'cues/1m1 b.mid': cue({ name: 'B', events: [note(3840, 60), note(4320, 61)] }),
  });
  const { cues } = await usage({ cues: ['cues'], files });
  expect(cues).toMatchObject([{ id: '1m1', seconds: 5.25, notes: 3 }]);
  expect(cues[0]?.files.map(({ path }) => path)).toEqual(['cues/1m1 a.mid', 'cues/1m1 b.mid']);
  expect(cues[0]?.parts.map(({ trackName, file }) => [trackName, file])).toEqual([
    ['A', 0],
    ['B', 1],
  ]);
});

test('the worst file gives the state of a cue', async () => {
  const files = new MemoryFiles({
    'cues/1m1 a.mid': plainCue(),
    'cues/1m1 b.mid': cutCue(),
    'cues/1m2 a.mid': 'not a cue',
    'cues/1m2 b.mid': plainCue(),
  });
  const { cues } = await usage({ cues: ['cues'], files });
  expect(cues.map(({ id, state, notes }) => [id, state, notes])).toEqual([
    ['1m1', 'damaged', expect.any(Number)],
    ['1m2', 'unreadable', 2],
  ]);
});
