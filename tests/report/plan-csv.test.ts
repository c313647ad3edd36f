import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import type { DroppedZone, KeptZone, Plan, PlanInstrument } from '../../src/keep/plan.ts';
import { planCsv } from '../../src/report/plan-csv.ts';
import { hostileNames } from './fixtures/names.ts';
import { plan } from './fixtures/plan.ts';
import { templatePlan } from './fixtures/template-plan.ts';

const rows = (which: Plan): readonly Readonly<Record<string, string>>[] =>
  parse(planCsv(which), { columns: true, record_delimiter: '\r\n' });

test('a row for each zone, kept and dropped, in the order of the JSON', () => {
  const both: Plan = { ...plan, instruments: [...plan.instruments, ...templatePlan.instruments] };
  const expected = both.instruments.flatMap(({ id, kept, dropped }) => [
    ...kept.map(({ zone }) => [id, String(zone), 'kept']),
    ...dropped.map(({ zone }) => [id, String(zone), 'dropped']),
  ]);
  expect(expected.length).toBeGreaterThan(6);
  expect(rows(both).map((row) => [row['instrument'], row['zone'], row['state']])).toEqual(expected);
});

test('a kept, a doubtful and a dropped zone, cell by cell', () => {
  expect(planCsv(plan).split('\r\n')).toEqual([
    'instrument,machine,player,zone,stable-name,articulations,samples,state,reasons,doubts,notes,cues,bytes,copies,first-cue,first-track,first-track-name,first-bar,first-beat,first-seconds,first-timecode,first-key,first-velocity',
    'harbour,default,default,12,,0:46 Harbour Harp,4:Tide C2 L; 5:Tide C2 R,kept,played,plain,38,1m1: 30; 2m1 v2: 8,4096,,1m1,3,Strings lo,4,1,7.5,,36,64',
    'harbour,default,default,40,,0:46 Harbour Harp,61:Foghorn E3,kept,start-state; order,start-state; order,3,1m1: 3,4096,,1m1,5,,1,1,0,,,',
    'harbour,default,default,13,,0:46 Harbour Harp,6:Tide C2 loud,dropped,,,,,4096,,,,,,,,,,',
    '',
  ]);
});

const zone = plan.instruments[0]!.kept[0]!;
const copy = plan.instruments[0]!.copies[0]!;

const withOne = (change: Partial<KeptZone>, rest: Partial<PlanInstrument> = {}): Plan => ({
  ...plan,
  instruments: [{ ...plan.instruments[0]!, kept: [{ ...zone, ...change }], dropped: [], ...rest }],
});

test('what only stops others is there without samples', () => {
  const [row] = rows(
    withOne({ samples: [], reasons: ['mutes'], doubts: [['order', 'tail'], ['slack']] }),
  );
  expect(row).toMatchObject({
    state: 'mutes',
    samples: '',
    reasons: 'mutes',
    doubts: 'order + tail; slack',
  });
});

test('the copies that keep a zone, where each has its own', () => {
  const copies = [
    { ...copy, name: 'Hn 1', kept: [12, 13] },
    { ...copy, name: 'Hn 2', kept: [13] },
    { ...copy, name: 'Hn 3', kept: [12], muted: [12] },
  ];
  expect(rows(withOne({}, { copies }))[0]).toMatchObject({ copies: 'Hn 1; Hn 3 (mutes)' });
  expect(rows(withOne({ reasons: ['mutes'] }, { copies }))[0]).toMatchObject({
    copies: 'Hn 1; Hn 3',
  });
});

test('a stable name, several articulations and a time code', () => {
  const [row] = rows(
    withOne({
      key: 'plucked C2',
      articulations: [0, 3],
      witnesses: [{ ...zone.witnesses[0]!, timecode: '01:00:10:00' }],
    }),
  );
  expect(row).toMatchObject({
    'stable-name': 'plucked C2',
    articulations: '0:46 Harbour Harp; 128:0 Dockside Kit',
    'first-timecode': '01:00:10:00',
  });
});

test('names from files do nothing where the table is opened', () => {
  const names = [...hostileNames, '=HYPERLINK("x")', '+1', '-1', '@a', '\t=1'];
  const dropped = names.map((name, i): DroppedZone => ({
    zone: i,
    key: name,
    samples: [name],
    articulations: [],
    bytes: 0,
  }));
  const text = planCsv(withOne({}, { kept: [], dropped }));
  expect(text.replaceAll('\r\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
  const read = rows(withOne({}, { kept: [], dropped }));
  expect(read).toHaveLength(names.length);
  for (const row of read) {
    for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+\-@]/u);
  }
});

test('a plan without zones is its headings', () => {
  expect(planCsv({ ...plan, instruments: [] })).toMatch(/^instrument,[^\r\n]*\r\n$/u);
});
