import { expect, test } from 'vitest';
import type { OverviewMiss } from '../../../src/overview/overview-proof.ts';
import { plainColors } from '../../../src/report/colors.ts';
import type { Look } from '../../../src/report/look.ts';
import { missSaid } from '../../../src/report/said/misses.ts';
import { answerOf } from '../../../src/report/said/verdict.ts';
import { saidText } from '../../../src/report/summary/said-text.ts';
import { barsWords, trackWords } from '../../../src/report/ways-out.ts';
import { missingOverview } from '../fixtures/overview.ts';

const look: Look = { colors: plainColors, ascii: false, width: null };
const [miss] = missingOverview.proof.misses;

const notesOf = (change: Partial<OverviewMiss>): string =>
  saidText(missSaid({ ...miss!, velocities: null, keys: [], ...change }, look).notes, look);

test('a track without a name has one number, that of check', () => {
  for (const trackName of [null, ' ']) {
    const places = miss!.places.map((place) => ({ ...place, track: 0, trackName }));
    const bars = [{ cue: '1m2 v2', track: 0, trackName, bars: [[3, 3]] as const }];
    const nameless = { ...miss!, places, bars };
    const { places: where, ways } = missSaid(nameless, look);
    expect(saidText(where[0]!, look)).toContain(`beat 1, ${trackWords(bars[0]!, look)} (`);
    expect(saidText(ways.at(-1)!, look)).toBe(`print as audio: ${barsWords(bars[0]!, look)}`);
    const proof = { ...missingOverview.proof, misses: [nameless] };
    const { means } = answerOf({ ...missingOverview, proof });
    expect(saidText(means, look)).toContain('bar 3 beat 1, track 0.');
  }
});

test('who asks is told as check does, by what it is and not by its number', () => {
  expect(notesOf({ zones: 1, notes: 4, askedBy: 'notes' })).toBe('4 notes');
  expect(notesOf({ zones: 1, notes: 4, askedBy: 'notes', notesAtMost: true })).toBe(
    'up to 4 notes',
  );
  expect(notesOf({ zones: 1, notes: 0, askedBy: 'cuts' })).toBe('notes that cut others short');
  expect(notesOf({ zones: 1, notes: 4, askedBy: 'controllers' })).toBe('a controller, 4 times');
  expect(notesOf({ zones: 1, notes: 1, askedBy: 'controllers' })).toBe('a controller, once');
  const inDoubt = { zones: 0, doubtfulZones: 1, notes: 0, doubtfulNotes: 3 };
  expect(notesOf({ ...inDoubt, doubtfulNotesAtMost: true })).toBe('up to 3 notes');
});

test('a bound of further notes is told as one', () => {
  const doubtOf = (doubtfulNotesAtMost: boolean): string =>
    saidText(missSaid({ ...miss!, doubtfulNotes: 6, doubtfulNotesAtMost }, look).doubt!, look);
  expect(doubtOf(false)).toBe('6 more notes in doubt');
  expect(doubtOf(true)).toBe('up to 6 more notes in doubt');
});

test('where there are too many bars the command is named that tells all of them', () => {
  expect(saidText(missSaid({ ...miss!, bars: [] }, look).ways.at(-1)!, look)).toBe(
    'print as audio: keepset check --verbose names the bars',
  );
});
