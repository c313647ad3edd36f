import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import type { Check, Miss } from '../../src/keep/check/check.ts';
import { checkCsv } from '../../src/report/check-csv.ts';
import { missingCheck, provedCheck } from './fixtures/check.ts';
import { hostileNames } from './fixtures/names.ts';

const rows = (which: Check): readonly Readonly<Record<string, string>>[] =>
  parse(checkCsv(which), { columns: true, record_delimiter: '\r\n' });

test('a row for each missing zone, in the order of the JSON', () => {
  expect(rows(missingCheck).map((row) => [row['instrument'], row['zone']])).toEqual(
    missingCheck.misses.map(({ instrument, zone }) => [instrument, String(zone)]),
  );
});

test('every cell of three kinds of need', () => {
  const lines = checkCsv(missingCheck).split('\r\n');
  expect(lines[0]).toBe(
    'instrument,machine,copy,zone,stable-name,articulations,samples,silent,preset-only,doubts,notes,doubtful-notes,cues,keys,velocities,unit,bytes,fits,first-cue,first-track,first-track-name,first-bar,first-beat,first-seconds,first-timecode,first-key,first-velocity,bars,ways',
  );
  expect(lines[1]).toBe(
    'low-strings,a,,240,sus C2 ff,sustain,strings/sus_C2_ff.wav,no,no,plain,10000,12,1m2: 2; 2m3 v2: 9998,36 to 40; 43,64,0,12582912,yes,1m2,2,,4,1,7.5,,36,64,"1m2, track 2: bars 4, 6; 2m3 v2, Vc: bars 1-80",controller 1 at 96 or below (it goes up to 101)',
  );
  expect(lines[6]).toBe(
    'hand-drums,b,Drum 2,3,,slap,drums/slap_1.wav,no,no,order; start-state + slack,1,0,2m3 v2: 1,50,90,0,1048576,no,2m3 v2,9,Drum 2,31,2,64.125,01:01:14:03,50,90,"2m3 v2, Drum 2: bar 31",controller 20 at 64 or above (it goes down to 10)',
  );
  expect(lines[7]).toBe(
    'hand-drums,b,Drum 2,9,,,,yes,no,plain,1,0,2m3 v2: 1,,,1,0,yes,2m3 v2,9,Drum 2,31,2,64.125,01:01:14:03,,,,',
  );
});

test('several ways, and whether it fits where there is no budget', () => {
  const [row] = rows({ ...missingCheck, misses: [{ ...missingCheck.misses[1]!, fits: null }] });
  expect(row).toMatchObject({
    fits: '',
    velocities: '111 to 113',
    ways: 'lower velocity 111, 113 to 110 at C4 (60), D4 (62), 4 notes; another articulation: marcato, chosen by C0 (12)',
  });
});

test('nothing is cut, however much there is', () => {
  const tracks = Array.from({ length: 40 }, (_, track) => ({
    cue: '1m1',
    track,
    trackName: null,
    bars: Array.from({ length: 30 }, (_, i) => [i * 3 + 1, i * 3 + 2] as const),
  }));
  const [row] = rows({ ...missingCheck, misses: [{ ...missingCheck.misses[1]!, bars: tracks }] });
  expect(row?.['bars']?.split('; ')).toHaveLength(40);
  expect(row?.['bars']).toContain('track 39: bars 1-2, 4-5,');
  expect(row?.['bars']).toMatch(/88-89$/u);
});

test('what is proved is the headings alone', () => {
  expect(checkCsv(provedCheck)).toMatch(/^instrument,[^\r\n]*,ways\r\n$/u);
});

test('names from files do nothing where the table is opened', () => {
  const names = [...hostileNames, '=HYPERLINK("x")', '+1', '-1', '@a', '\t=1'];
  const misses = names.map((name, i): Miss => ({
    ...missingCheck.misses[1]!,
    zone: i,
    instrument: name,
    machine: name,
    copy: name,
    key: name,
    samples: [name],
    articulations: [name],
    cues: { [name]: 1 },
    places: [{ ...missingCheck.misses[1]!.places[0]!, cue: name, trackName: name }],
    bars: [{ cue: name, track: 0, trackName: name, bars: [[1, 2]] }],
    ways: [{ kind: 'articulation', articulation: name, switch: name }],
  }));
  const which = { ...missingCheck, misses };
  expect(checkCsv(which).replaceAll('\r\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
  const read = rows(which);
  expect(read).toHaveLength(names.length);
  for (const row of read) {
    for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+\-@]/u);
  }
});
