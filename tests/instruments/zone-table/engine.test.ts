import { expect, test } from 'vitest';
import { zoneDoubts } from '../../../src/keep/reach.ts';
import { namesOf } from '../../../src/terms/doubt.ts';
import type { OracleEvent } from '../../oracle/soundfont-events.ts';
import { cc, off, on, usageOf } from '../../playback/hand-made.ts';
import { readTable } from './reading.ts';

/** What a cue reaches of a table: `key of the zone`, with the doubts of those it reaches by doubt. */
const reached = (table: string, events: readonly OracleEvent[]): readonly string[] => {
  const instrument = readTable(table);
  return zoneDoubts(instrument, [usageOf(instrument, events)]).flatMap((sets, zone) => {
    const [first] = sets;
    if (first === undefined) return [];
    const doubts = sets.map((set) => namesOf(set).join('+')).join(' or ');
    return [
      first === 0 ? instrument.zones[zone]!.key! : `${instrument.zones[zone]!.key!}: ${doubts}`,
    ];
  });
};

const program = (tick: number, number: number, channel = 0): OracleEvent => ({
  tick,
  kind: 'program',
  channel,
  program: number,
});

test('keys and velocities, ends included', () => {
  const table = 'keys,velocities,bytes,key\n60-61,1-64,1,soft\n60-61,65-127,1,loud\n62,,1,next\n';
  expect(reached(table, [on(0, 61, 64)])).toEqual(['soft']);
  expect(reached(table, [on(0, 60, 65)])).toEqual(['loud']);
  expect(reached(table, [on(0, 62, 1)])).toEqual(['next']);
  expect(reached(table, [on(0, 59)])).toEqual([]);
});

test('takes and microphones are all reached', () => {
  const table = 'keys,round-robin,microphone,bytes\n60,2,a|b,1\n';
  expect(reached(table, [on(0, 60)])).toHaveLength(4);
});

const layers =
  'keys,controllers,bytes,key\n60,1:0-42,1,low\n60,1:43-84,1,middle\n60,1:85-127,1,high\n';

test('a layer fades in while the note sounds', () => {
  expect(reached(layers, [cc(0, 1, 10), on(10, 60), off(20, 60)])).toEqual(['low']);
  // A controller goes through the values between: so does the middle layer.
  expect(reached(layers, [cc(0, 1, 10), on(10, 60), cc(15, 1, 90), off(20, 60)])).toEqual([
    ...['low', 'middle', 'high'],
  ]);
});

test('after the note only in doubt, as a table knows no release time', () => {
  expect(reached(layers, [cc(0, 1, 10), on(10, 60), off(20, 60), cc(9_600, 1, 90)])).toEqual([
    'low',
    'middle: tail',
    'high: tail',
  ]);
});

test('two fades need one instant', () => {
  const table = 'keys,controllers,bytes,key\n60,1:64-127 & 11:0-63,1,both\n';
  const note = [on(480, 60), off(960, 60)];
  expect(reached(table, [cc(0, 1, 64), cc(0, 11, 63), ...note])).toEqual(['both']);
  expect(reached(table, [cc(0, 1, 64), cc(10, 11, 64), cc(20, 11, 65), ...note])).toEqual([]);
});

test('releases: after the pedal, or with the key', () => {
  const table = 'keys,release,bytes,key\n60,,1,note\n60,yes,1,release\n60,note-off,1,key up\n';
  // A key that never goes up: the sequencer lets it go at the end, or nobody does.
  expect(reached(table, [on(0, 60)])).toEqual([
    ...['note', 'release: pedal-held', 'key up: pedal-held'],
  ]);
  expect(reached(table, [on(0, 60), off(10, 60)])).toEqual(['note', 'release', 'key up']);
  expect(reached(table, [cc(0, 64, 127), on(5, 60), off(10, 60)])).toEqual([
    ...['note', 'release: pedal-held', 'key up'],
  ]);
});

const switched = (a: string, b: string): string =>
  `articulation;switch;keys;bytes;key\na;${a};36-96;1;a\nb;${b};36-96;1;b\n`;

test.each<[string, string, OracleEvent, OracleEvent]>([
  ['C1', 'D1', on(0, 24), on(0, 26)],
  ['program 5', 'program 6-9', program(0, 5), program(0, 8)],
  ['cc 32: 1-20', 'cc 32: 21-40', cc(0, 32, 20), cc(0, 32, 21)],
])('%s and %s choose', (a, b, first, second) => {
  const table = switched(a, b);
  const later = (event: OracleEvent): OracleEvent => ({ ...event, tick: 960 });
  expect(reached(table, [first, on(480, 60)])).toEqual(['a']);
  expect(reached(table, [second, on(480, 60)])).toEqual(['b']);
  expect(reached(table, [first, on(480, 60), later(second), on(1_440, 60)])).toEqual(['a', 'b']);
});

test('a channel chooses', () => {
  const table = switched('channel 3', 'channel 4');
  expect(reached(table, [on(0, 60, 100, 2)])).toEqual(['a']);
  expect(reached(table, [on(0, 60, 100, 3)])).toEqual(['b']);
  // A channel that chooses nothing: exports often put everything on one, so any may be meant.
  expect(reached(table, [on(0, 60, 100, 4)])).toEqual(['a: no-switch', 'b: no-switch']);
});

test('a keyswitch that lies in the range plays as well', () => {
  const table = 'articulation;switch;keys;bytes;key\na;C1;;1;a\nb;D1;;1;b\n'.replaceAll(
    ';;1',
    ';0-127;1',
  );
  expect(reached(table, [on(0, 24)])[0]).toBe('a');
});

test('articulations that nothing chooses are all kept, in doubt', () => {
  expect(reached(switched('', ''), [on(0, 60)])).toEqual(['a: no-switch', 'b: no-switch']);
  expect(reached(switched('C1', ''), [on(0, 24), on(480, 60)])).toEqual(['a', 'b']);
});

/** The file has switches and the cue does not: what a sequencer may have kept to itself. */
test('switches that a cue does not have', () => {
  expect(reached(switched('C1', 'D1'), [on(480, 60)])).toEqual(['a: no-switch', 'b: no-switch']);
});
