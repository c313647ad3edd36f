import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { plan } from '../../../src/jobs/plan.ts';
import { worklist, type WorklistOptions } from '../../../src/jobs/worklist.ts';
import { toJson } from '../../../src/report/json.ts';
import { withMessages } from '../../../src/report/messages.ts';
import type { Grain } from '../../../src/template/player.ts';
import { InputError, UsageError } from '../../../src/terms/errors.ts';
import type { RecordedAction, Worklist } from '../../../src/trim/worklist/worklist.ts';
import { cueBytes, type CueNote } from '../../jobs/midi-cue.ts';
import { actionsOf } from './worklist-session.ts';

/** Small templates whose lists are worked out by hand: sizes are powers of ten, so that sums are read off. */

const note = (tick: number, key: number, velocity = 80): CueNote => ({
  ...{ tick, length: 60, key, velocity },
});

type Contents = Record<string, string | Uint8Array>;

interface Score {
  readonly table: string;
  readonly shares?: 'copy' | 'machine';
  readonly unloads?: Grain;
  readonly tracks: readonly (readonly CueNote[])[];
}

const contentsOf = ({
  table,
  shares = 'machine',
  unloads = 'sample',
  tracks,
}: Score): Contents => ({
  'keepset.yaml': `
cues: cues/*.mid
machines: { a: { memory: 1 GiB }, b: { memory: 2 GiB } }
players: { p: { loads: whole, shares: ${shares}, unloads: ${unloads} } }
instruments: { band: { zones: band.csv, middle-c: C4, machine: b, player: p } }
routes: [{ track: '*', instrument: band }]
`,
  'band.csv': table,
  'cues/1m1.mid': cueBytes(tracks.map((notes, i) => ({ name: `Part ${String(i + 1)}`, notes }))),
});

const withKeep = async (contents: Contents): Promise<Contents> => ({
  ...contents,
  'keep.json': toJson(withMessages(await plan({ files: new MemoryFiles(contents) }))),
});

/** Runs the job on a disk that takes up the record it writes. */
const run = async (contents: Contents, options: Partial<WorklistOptions> = {}): Promise<Worklist> =>
  worklist({
    keep: 'keep.json',
    files: new MemoryFiles(contents),
    write: (path, text) => {
      contents[path] = text;
      return Promise.resolve();
    },
    ...options,
  });

const listOf = async (score: Score): Promise<Worklist> => run(await withKeep(contentsOf(score)));

/** Keys as a person reads them: what tells one definition from another is left out. */
const bare = (text: string): string => text.replace(/ #[\da-f]{8}(?=$|[",\r])/gmu, '');

const bareKey = (one: RecordedAction): RecordedAction => ({ ...one, key: bare(one.key) });

/** A record by hand, of the definition that is at hand. */
const marked = async (contents: Contents, text: string): Promise<string> => {
  const [first] = actionsOf(await run(contents));
  return text.replace(/load [^,]*: [\d-]+/gu, (key) => `${key} ${first!.key.slice(-9)}`);
};

/** Key, and bytes that are freed and left. */
const lines = (list: Worklist): readonly (readonly [string, number, number])[] =>
  actionsOf(list).map(({ key, frees, total }) => [bare(key), frees, total]);

const twoArticulations =
  'articulation,switch,keys,velocities,bytes\n' +
  'long,24,60-61,1-64,1\nlong,24,60-61,65-127,10\nlong,24,62-63,1-127,100\n' +
  'short,25,60-63,1-64,1000\nshort,25,60-63,65-127,10000\n';

/** Long: one soft note below. Short: nothing. */
const longSoft = [[note(0, 24), note(480, 60, 30), note(960, 61, 30)]];

describe('one line at the grain of the player', () => {
  test('sample: an articulation, with the keys and layers that stay', async () => {
    const list = await listOf({ table: twoArticulations, tracks: longSoft });
    expect(lines(list)).toEqual([
      ['unload band/long: 1-2', 110, 11_001],
      ['unload band/short: 3-4', 11_000, 1],
    ]);
    const [long, short] = actionsOf(list);
    expect(long).toMatchObject({
      ...{ number: 1, does: 'unload', instrument: 'band', copy: null, spareCopies: 0 },
      unit: { grain: 'sample', articulations: ['long'], layer: null, microphone: null },
      ...{ zones: [1, 2], samples: 2, seen: null, note: '' },
      keeps: { keys: [[60, 61]], layers: [{ velocity: [1, 64], controllers: [] }] },
    });
    expect(short!.keeps).toBeNull();
    expect(list.machines.map(({ id, budget, bytes }) => [id, budget, bytes])).toEqual([
      ['a', 2 ** 30, { full: 0, now: 0, after: 0 }],
      ['b', 2 ** 31, { full: 11_111, now: 11_111, after: 1 }],
    ]);
  });

  test('sample: layers that touch are one, and so are keys', async () => {
    const tracks = [[note(0, 24), note(480, 60, 30), note(960, 61, 90)]];
    const [long] = actionsOf(await listOf({ table: twoArticulations, tracks }));
    expect(long!.keeps).toEqual({
      keys: [[60, 61]],
      layers: [{ velocity: [1, 127], controllers: [] }],
    });
  });

  test('layer', async () => {
    const list = await listOf({
      ...{ table: twoArticulations, tracks: longSoft },
      unloads: 'layer',
    });
    expect(lines(list)).toEqual([
      ['unload band/long/velocity 1-127: 2', 100, 11_011],
      ['unload band/long/velocity 65-127: 1', 10, 11_001],
      ['unload band/short/velocity 1-64: 3', 1_000, 10_001],
      ['unload band/short/velocity 65-127: 4', 10_000, 1],
    ]);
    expect(actionsOf(list).map(({ unit, keeps }) => [unit.layer?.velocity, keeps])).toEqual([
      [[1, 127], null],
      [[65, 127], null],
      [[1, 64], null],
      [[65, 127], null],
    ]);
  });

  test('articulation', async () => {
    // The last row is of every articulation: a unit of its own.
    const table = `${twoArticulations},,64-64,1-127,100000\n`;
    const list = await listOf({ table, tracks: longSoft, unloads: 'articulation' });
    expect(lines(list)).toEqual([
      ['unload band/short: 3-4', 11_000, 100_111],
      ['unload band/every articulation: 5', 100_000, 111],
    ]);
    expect(actionsOf(list)[0]).toMatchObject({ unit: { grain: 'articulation' }, keeps: null });
  });

  test('instrument: nothing stays or all of it does', async () => {
    const unloads = 'instrument';
    const some = await listOf({ table: twoArticulations, tracks: longSoft, unloads });
    expect(lines(some)).toEqual([]);
    const none = await listOf({ table: twoArticulations, tracks: [[note(0, 100)]], unloads });
    expect(lines(none)).toEqual([['unload band: 0-4', 11_111, 0]]);
  });

  test('microphone: each of them is played, so that all stay', async () => {
    const table = 'keys,microphone,bytes\n60-60,near,1\n60-60,far,10\n61-61,far,100\n';
    const unloads = 'microphone';
    expect(lines(await listOf({ table, tracks: [[note(0, 60)]], unloads }))).toEqual([]);
    const apart = 'keys,microphone,bytes\n60-60,near,1\n61-61,far,10\n62-62,far,100\n';
    const list = await listOf({ table: apart, tracks: [[note(0, 60)]], unloads });
    expect(lines(list)).toEqual([['unload band/far: 1-2', 110, 1]]);
    expect(actionsOf(list)[0]!.unit).toEqual({
      ...{
        grain: 'microphone',
        articulations: ['every articulation'],
        layer: null,
        microphone: 'far',
      },
    });
  });

  test('a copy of its own that needs nothing goes whole, in one line', async () => {
    const list = await listOf({
      table: twoArticulations,
      tracks: [...longSoft, [note(0, 100)]],
      shares: 'copy',
    });
    expect(lines(list)).toEqual([
      ['unload band@Part 1/long: 1-2', 110, 22_112],
      ['unload band@Part 1/short: 3-4', 11_000, 11_112],
      ['unload band@Part 2: 0-4', 11_111, 1],
    ]);
    expect(actionsOf(list).map(({ copy, unit }) => [copy, unit.grain])).toEqual([
      ['Part 1', 'sample'],
      ['Part 1', 'sample'],
      ['Part 2', 'instrument'],
    ]);
  });

  test('zones that use one sample free it with the last of them', async () => {
    const table =
      'articulation,switch,keys,sample,bytes\nlong,24,60-60,a,10\nlong,24,61-61,b,1\nshort,25,60-60,a,10\n';
    const list = await listOf({ table, tracks: [[note(0, 24), note(480, 61)]] });
    expect(actionsOf(list).map(({ key, frees, samples }) => [bare(key), frees, samples])).toEqual([
      ['unload band/long: 0', 0, 0],
      ['unload band/short: 2', 10, 1],
    ]);
  });
});

describe('the record', () => {
  const score: Score = { table: twoArticulations, tracks: longSoft };

  test('is written, ticked and kept from plan to plan', async () => {
    const contents = await withKeep(contentsOf(score));
    const loaded = 'loaded.csv';
    expect((await run(contents, { loaded })).ledger).toEqual({ path: loaded, isNew: true });
    expect(bare(contents[loaded] as string)).toBe(
      'number,action,done,bytes,note\r\n' +
        '1,unload band/long: 1-2,,,\r\n2,unload band/short: 3-4,,,\r\n',
    );
    contents[loaded] = (contents[loaded] as string).replace(/,,,\r\n$/u, ',,2 kB,odd\r\n');
    const ticked = await run(contents, { loaded, done: [2] });
    expect(ticked.ledger).toEqual({ path: loaded, isNew: false });
    expect(ticked.done.map(bareKey)).toEqual([
      { number: 2, key: 'unload band/short: 3-4', seen: 2000, note: 'odd' },
    ]);
    expect(lines(ticked)).toEqual([['unload band/long: 1-2', 110, 1]]);
    expect(ticked.machines[1]!.bytes).toEqual({ full: 11_111, now: 111, after: 1 });

    // Then a cue asks for the short articulation, softly, and for all of the long one.
    const more = [
      [...longSoft[0]!, note(1440, 60, 90), note(1920, 62), note(2400, 25), note(2880, 60, 30)],
    ];
    const later = await withKeep({
      ...contentsOf({ ...score, tracks: more }),
      [loaded]: contents[loaded],
    });
    const list = await run(later, { loaded });
    expect(lines(list)).toEqual([['load band/short: 3', -1_000, 1_111]]);
    expect(actionsOf(list)[0]).toMatchObject({
      number: 3,
      samples: 1,
      keeps: { keys: [[60, 63]], layers: [{ velocity: [1, 64], controllers: [] }] },
    });
    expect(list.void.map(bareKey)).toEqual([
      { number: 1, key: 'unload band/long: 1-2', seen: null, note: '' },
    ]);
    expect(bare(later[loaded] as string)).toBe(
      'number,action,done,bytes,note\r\n1,unload band/long: 1-2,void,,\r\n' +
        '2,unload band/short: 3-4,yes,2 kB,odd\r\n3,load band/short: 3,,,\r\n',
    );

    // And does so no longer: the old number is back, the load is void.
    const again = { ...contents, [loaded]: later[loaded]! };
    const back = await run(again, { loaded });
    expect(actionsOf(back).map(({ number, key }) => [number, bare(key)])).toEqual([
      [1, 'unload band/long: 1-2'],
    ]);
    expect(back.void.map(bareKey)).toEqual([
      { number: 3, key: 'load band/short: 3', seen: null, note: '' },
    ]);
  });

  test('a number is not taken up again behind its contrary', async () => {
    const contents = await withKeep(contentsOf(score));
    contents['loaded.csv'] = await marked(
      contents,
      'number,action,done\r\n1,unload band/short: 3-4,void\r\n2,unload band/short: 3,yes\r\n3,load band/short: 3,yes\r\n',
    );
    const list = await run(contents, { loaded: 'loaded.csv' });
    expect(actionsOf(list).map(({ number, key }) => [number, bare(key)])).toEqual([
      [4, 'unload band/long: 1-2'],
      [5, 'unload band/short: 3-4'],
    ]);
    expect(list.void.map(bareKey)).toEqual([
      { number: 1, key: 'unload band/short: 3-4', seen: null, note: '' },
    ]);
  });

  test('of another state of the template: done is refused and left as it is, undone is void', async () => {
    const contents = await withKeep(contentsOf(score));
    const text = await marked(
      contents,
      'number,action,done\r\n1,unload band/long: 1-9,yes\r\n2,unload oboe: 0,x\r\n',
    );
    contents['loaded.csv'] = text;
    const refused = await run(contents, { loaded: 'loaded.csv' }).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(InputError);
    const { finding, others } = refused as InputError;
    expect([finding, ...others].map(({ code, args, at }) => [code, args, at?.line])).toEqual([
      ['worklist-ledger-stale', { number: 1, instrument: 'band', copy: null, reason: 'zones' }, 2],
      [
        'worklist-ledger-stale',
        { number: 2, instrument: 'oboe', copy: null, reason: 'instrument' },
        3,
      ],
    ]);
    expect(contents['loaded.csv']).toBe(text);
    contents['loaded.csv'] = await marked(
      contents,
      'number,action,done\r\n7,unload band@Hn/long: 1,\r\n',
    );
    const list = await run(contents, { loaded: 'loaded.csv' });
    expect(list.findings.map(({ code, severity }) => [code, severity])).toEqual([
      ['worklist-ledger-left', 'warning'],
    ]);
    expect(actionsOf(list).map(({ number }) => number)).toEqual([8, 9]);
    expect(list.void.map(bareKey)).toEqual([
      { number: 7, key: 'unload band@Hn/long: 1', seen: null, note: '' },
    ]);
  });

  test('a key that names more zones than there can be is refused at once', async () => {
    const contents = await withKeep(contentsOf(score));
    contents['loaded.csv'] = await marked(
      contents,
      'number,action,done\r\n1,unload band: 0-999999999999999,yes\r\n',
    );
    await expect(run(contents, { loaded: 'loaded.csv' })).rejects.toThrow('worklist-ledger-stale');
  });

  test('the last number there is', async () => {
    const contents = await withKeep(contentsOf(score));
    contents['loaded.csv'] = await marked(
      contents,
      'number,action,done\r\n999999999,unload band/long: 1,void\r\n',
    );
    await expect(run(contents, { loaded: 'loaded.csv' })).rejects.toThrow('ledger-numbers-spent');
  });
});

describe('the job', () => {
  const score: Score = { table: twoArticulations, tracks: longSoft };

  test('one machine is listed, all are recorded', async () => {
    const contents = await withKeep(contentsOf(score));
    const list = await run(contents, { loaded: 'loaded.csv', machine: 'a' });
    expect(list.machines.map(({ id, actions }) => [id, actions.length])).toEqual([['a', 0]]);
    expect(contents['loaded.csv']).toContain('2,unload band/short: 3-4 #');
    await expect(run(contents, { machine: 'c' })).rejects.toThrow(UsageError);
  });

  test('ticks need a record, and one meaning', async () => {
    const contents = await withKeep(contentsOf(score));
    await expect(run(contents, { done: [1] })).rejects.toThrow(UsageError);
    const both = { loaded: 'loaded.csv', done: [1], undo: [1] };
    await expect(run(contents, both)).rejects.toThrow(UsageError);
    const early = { loaded: 'loaded.csv', done: [1] };
    await expect(run(contents, early)).rejects.toThrow('ledger-number-unknown');
    expect(contents['loaded.csv']).toBeUndefined();
  });

  test('another template or instrument is refused; another cue is a warning', async () => {
    const contents = await withKeep(contentsOf(score));
    const with_ = (change: Contents): Promise<Worklist> => run({ ...contents, ...change });
    await expect(
      with_({ 'keepset.yaml': `${contents['keepset.yaml'] as string}# edited\n` }),
    ).rejects.toThrow('worklist-template-changed');
    await expect(with_({ 'band.csv': twoArticulations.replace('10000', '20000') })).rejects.toThrow(
      'worklist-instrument-changed',
    );
    const changed = await with_({ 'cues/1m1.mid': new Uint8Array(3) });
    expect(changed.findings.map(({ code, args }) => [code, args])).toEqual([
      ['worklist-cues-changed', { cues: ['1m1'] }],
    ]);
    expect(lines(changed)).toEqual(lines(await run(contents)));
    const without = Object.fromEntries(
      Object.entries(contents).filter(([path]) => path !== 'cues/1m1.mid'),
    );
    expect((await run(without)).findings.map(({ code }) => code)).toEqual([
      'worklist-cues-changed',
    ]);
  });

  test('a cue that could not be read to the end is no proof', async () => {
    const contents = contentsOf(score);
    const cue = contents['cues/1m1.mid'] as Uint8Array;
    const cut = { ...contents, 'cues/1m2.mid': cue.subarray(0, cue.length - 9) };
    const list = await run(await withKeep(cut));
    expect(list.findings).toMatchObject([
      { code: 'worklist-not-proved', severity: 'warning', args: { cues: ['1m2'], unmapped: 0 } },
    ]);
  });
});
