/** What a check has to notice beside dropped zones: cases that a review found, each with its answer by hand. */
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { check } from '../../../src/jobs/check.ts';
import { plan, type PlanOptions } from '../../../src/jobs/plan.ts';
import { toJson } from '../../../src/report/json.ts';
import { InputError } from '../../../src/terms/errors.ts';
import { writeBank } from '../../oracle/soundfont-bytes.ts';
import { bankPlan, cue, note, program, type Part } from '../../jobs/small-score.ts';

type Contents = Readonly<Record<string, Uint8Array | string>>;

const planned = async (contents: Contents, options: PlanOptions): Promise<string> =>
  toJson(await plan({ ...options, files: new MemoryFiles(contents) }));

const keys = (...events: Part['events']) => cue({ name: 'Keys', events });

test('a zone that stays for one preset is not there for another that was dropped', async () => {
  const [first, second] = bankPlan.presets;
  // Program 48 plays the instrument of program 0.
  const shared = { ...bankPlan, presets: [first!, { ...second!, zones: first!.zones }] };
  const contents = {
    'bank.sf2': writeBank(shared),
    'cues/1m1.mid': keys(program(0, 0), note(0, 64)),
  };
  const settle = { 'start-state': 'plain', order: 'plain' } as const;
  const keep = await planned(contents, { cues: ['cues'], instrument: 'bank.sf2', settle });
  const files = new MemoryFiles({
    ...contents,
    'keep.json': keep,
    'new/1m2.mid': keys(program(0, 48), note(480, 64)),
  });
  const checked = await check({ keep: 'keep.json', cues: ['new'], files });
  expect(checked.verdict).toBe('missing');
  expect(checked.misses).toMatchObject([
    { zone: 1, isPreset: true, articulations: ['0:48 Strings'], bytes: 0, notes: 1 },
  ]);
  const same = await check({ keep: 'keep.json', cues: ['cues'], files });
  expect(same.verdict).toBe('proved');
});

const table = `key,articulation,switch,keys,velocities,release,bytes
long,long,24,48-72,1-127,,1000
after,long,24,48-72,1-127,yes,500
short,short,25,48-72,1-127,,2000
`;

const template = (routes: string, rest = ''): string => `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, shares: copy, unloads: sample, per-copy: 100 B } }
instruments: { band: { zones: band.csv, middle-c: C4 } }
routes: [${routes}]
${rest}
`;

const band = (name: string, ...keyNumbers: readonly number[]) =>
  cue({ name, events: keyNumbers.map((key, i) => note(480 * i, key)) });

test('a note that lacks its attack and its release is one note', async () => {
  const contents = {
    'keepset.yaml': template(`{ track: '*', instrument: band, articulation: long }`),
    'band.csv': table.replaceAll('48-72', '48-59|60-72'),
    'cues/1m1.mid': band('One', 50),
  };
  const keep = await planned(contents, {});
  const files = new MemoryFiles({ ...contents, 'keep.json': keep, 'new/1m2.mid': band('One', 62) });
  const { misses, total } = await check({ keep: 'keep.json', cues: ['new'], files });
  expect(misses).toHaveLength(2);
  expect(total).toMatchObject({ notes: 1, bytes: 1500 });
});

test('an articulation that is not found is not proved', async () => {
  const contents = {
    'keepset.yaml': template(`{ track: 'Vc {art}', instrument: band, articulation: '{art}' }`),
    'band.csv': table,
    'cues/1m1.mid': band('Vc long', 60),
  };
  const keep = await planned(contents, {});
  const files = new MemoryFiles({
    ...contents,
    'keep.json': keep,
    'new/1m2.mid': band('Vc lonq', 60),
  });
  const { verdict, open } = await check({ keep: 'keep.json', cues: ['new'], files });
  expect(verdict).not.toBe('proved');
  expect(open).toContain('route-articulation');
});

test('what is only pinned has its place in memory', async () => {
  const contents = {
    'keepset.yaml': template(
      `{ track: One, instrument: band, articulation: long }`,
      'pins: [{ instrument: spare }]',
    ).replace('middle-c: C4 } }', 'middle-c: C4 }, spare: { zones: spare.csv, middle-c: C4 } }'),
    'band.csv': table,
    'spare.csv': table.replace('2000', '4000'),
    'cues/1m1.mid': band('One', 60),
  };
  const made = await plan({ files: new MemoryFiles(contents) });
  const files = new MemoryFiles({ ...contents, 'keep.json': toJson(made) });
  const { machines } = await check({ keep: 'keep.json', files });
  // Two copies of 100 bytes; 1000 + 500 that are played, 1000 + 500 + 4000 that are pinned.
  expect(made.machines[0]!.bytes.kept).toBe(7200);
  expect(machines[0]!.bytes).toMatchObject({ kept: 7200, reloaded: 7200 });
});

test('an export without notes, and one file of two, are not proved', async () => {
  const contents = {
    'keepset.yaml': template(`{ track: '*', instrument: band, articulation: long }`),
    'band.csv': table,
    'cues/1m1 a.mid': band('One', 60),
    'cues/1m1 b.mid': band('Two', 61),
  };
  const keep = await planned(contents, {});
  const files = new MemoryFiles({ ...contents, 'keep.json': keep, 'new/1m2.mid': band('One') });
  const apart = await check({ keep: 'keep.json', cues: ['cues/1m1 b.mid'], files });
  expect(apart.open).toContain('check-files-missing');
  const empty = await check({ keep: 'keep.json', cues: ['new/1m2.mid'], files });
  expect([empty.verdict, empty.open]).toEqual(['not-proved', ['cue-without-notes']]);
  expect((await check({ keep: 'keep.json', files })).verdict).toBe('proved');
});

test('a keep file whose choices name no switch of the instrument is refused', async () => {
  const contents = {
    'keepset.yaml': template(`{ track: '*', instrument: band }`),
    'band.csv': table,
    'cues/1m1.mid': band('One', 24, 60),
  };
  const keep = await planned(contents, {});
  expect(keep).toContain('"signal": 0');
  const edited = keep.replace('"signal": 0', '"signal": 9999');
  const files = new MemoryFiles({ ...contents, 'keep.json': edited });
  const refused = check({ keep: 'keep.json', files });
  await expect(refused).rejects.toThrow(InputError);
  await expect(refused).rejects.toMatchObject({ finding: { code: 'keep-file-disagrees' } });
});
