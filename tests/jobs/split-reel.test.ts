import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { lift, reelFile, strike, turn, type Placed, type ReelPiece } from './reel-file.ts';

const table = `key,keys,velocities,controllers,release,bytes
low,0-59,1-127,,,1000
soft,60-127,1-127,1:0-63,,2000
loud,60-127,1-127,1:64-127,,4000
noise,60-127,1-127,,yes,8000
`;

const yaml = (more: string): string => `
cues: cues/*.mid
instruments: { band: { zones: band.csv, middle-c: C4 } }
${more}`;

const everything = 'routes: [ { track: "*", instrument: band } ]';

const planned = (
  cues: Readonly<Record<string, Uint8Array>>,
  options: PlanOptions = {},
  more = everything,
): Promise<Plan> =>
  plan({
    template: 'keepset.yaml',
    files: new MemoryFiles({ 'keepset.yaml': yaml(more), 'band.csv': table, ...cues }),
    ...options,
  });

const note = (tick: number, key: number, length = 240): readonly Placed[] => [
  strike(tick, key),
  lift(tick + length, key),
];

const piece = (
  marker: string,
  tracks: Readonly<Record<string, readonly Placed[]>>,
  length = 960,
): ReelPiece => ({ marker, length, tracks });

type NotesByCue = Readonly<Record<string, number>>;

const cuesOf = ({ instruments }: Plan): Readonly<Record<string, NotesByCue>> =>
  Object.fromEntries(
    instruments[0]!.kept.map(({ key, cues }): [string, NotesByCue] => [key!, cues]),
  );

const codes = ({ findings }: Plan) => findings.map(({ code, file }) => [code, file]);

const split = { split: 'markers' } as const;

describe('a reel in one file', () => {
  const reel = reelFile(
    [
      piece('1m1 Titles', { Vln: [turn(0, 1, 100), ...note(240, 72)] }),
      // The controller is not set again: it is where the cue before has left it.
      piece('1m2 Harbour v3', { Vln: note(120, 74), Vc: note(240, 40) }, 1_440),
      piece('1m3', { Vln: [turn(0, 1, 10), ...note(480, 76)] }),
    ],
    {
      opening: [
        [
          0,
          {
            type: 'smpteOffset',
            frameRate: 25,
            hour: 10,
            min: 0,
            sec: 0,
            frame: 0,
            subFrame: 0,
          } as never,
        ],
      ],
    },
  );

  test('each cue has its notes, its length and its time code; state is carried over', async () => {
    const made = await planned({ 'cues/Reel 1.mid': reel }, split);
    expect(made.settings.split).toBe('markers');
    // A quarter of 480 ticks is half a second. Three parts: "Vc" plays in 1m2 alone.
    expect(made.cues).toMatchObject([
      { id: '1m1', version: null, parts: 1, notes: 1, seconds: 1, timecode: '10:00:00:00' },
      { id: '1m2 v3', version: 3, parts: 2, notes: 2, seconds: 1.5, timecode: '10:00:01:00' },
      { id: '1m3', version: null, parts: 1, notes: 1, seconds: 1, timecode: '10:00:02:12' },
    ]);
    // Notes end at 480, 480 of 1m2 and 720 of 1m3.
    expect(made.cues.map(({ music }) => music)).toEqual([0.5, 0.5, 0.75]);
    expect(made.cues.map(({ tracks }) => tracks)).toEqual([
      { played: ['Vln'], silent: ['Conductor', 'Vc'] },
      { played: ['Vln', 'Vc'], silent: ['Conductor'] },
      { played: ['Vln'], silent: ['Conductor', 'Vc'] },
    ]);
    expect(cuesOf(made)).toMatchObject({
      low: { '1m2 v3': 1 },
      loud: { '1m1': 1, '1m2 v3': 1 },
      soft: { '1m3': 1 },
      noise: { '1m1': 1, '1m2 v3': 1, '1m3': 1 },
    });
    // Bars are those of the file: 1m2 begins in its third quarter.
    const [first] = made.instruments[0]!.kept.find(({ key }) => key === 'low')!.witnesses;
    expect(first).toMatchObject({
      ...{ cue: '1m2 v3', bar: 1, beat: 3.5, seconds: 1.25, timecode: '10:00:01:06' },
    });
  });

  test('the template may say so', async () => {
    const made = await planned({ 'cues/Reel 1.mid': reel }, {}, `split: markers\n${everything}`);
    expect(made.settings.split).toBe('markers');
    expect(made.cues).toHaveLength(3);
  });

  test('cues are left out by the ids that the markers give them', async () => {
    const made = await planned({ 'cues/Reel 1.mid': reel }, { ...split, without: ['1m2 v3'] });
    expect(made.cues.map(({ id }) => id)).toEqual(['1m1', '1m3']);
    expect(cuesOf(made)).not.toHaveProperty('low');
    // What was left out has still moved the controller.
    expect(cuesOf(made)).toMatchObject({ loud: { '1m1': 1 } });
    await expect(
      planned({ 'cues/Reel 1.mid': reel }, { ...split, without: ['1m4'] }),
    ).rejects.toMatchObject({ name: 'UsageError', message: 'No cue is called "1m4".' });
  });

  test('cues of several files stand in the order of the reel, versions side by side', async () => {
    const other = reelFile([
      piece('1m2 v4', { Vln: note(0, 72) }),
      piece('2m1', { Vln: note(0, 40) }),
    ]);
    const alone = reelFile([piece('', { Vln: note(0, 50) })], { markers: false });
    const cues = { 'cues/b.mid': reel, 'cues/a.mid': other, 'cues/1m2 pickup v3.mid': alone };
    const all = await planned(cues, split);
    expect(all.cues.map(({ id, files }) => [id, ...files.map(({ path }) => path)])).toEqual([
      ['1m1', 'cues/b.mid'],
      ['1m2 v3', 'cues/b.mid', 'cues/1m2 pickup v3.mid'],
      ['1m2 v4', 'cues/a.mid'],
      ['1m3', 'cues/b.mid'],
      ['2m1', 'cues/a.mid'],
    ]);
    const newest = await planned(cues, { ...split, newest: true });
    expect(newest.cues.map(({ id }) => id)).toEqual(['1m1', '1m2 v4', '1m3', '2m1']);
    expect(newest.findings).toContainEqual(
      expect.objectContaining({
        code: 'cue-versions-left',
        args: { cue: '1m2', newest: '1m2 v4', older: ['1m2 v3'] },
      }),
    );
  });

  test('rules for one cue hold in that cue alone', async () => {
    const made = await planned(
      { 'cues/Reel 1.mid': reel },
      split,
      `routes:
  - { track: "Vln", cue: "1m3", ignore: true }
  - { track: "Vln", instrument: band }
`,
    );
    expect(cuesOf(made)).toMatchObject({ loud: { '1m1': 1, '1m2 v3': 1 } });
    // The tails of the other cues hear the controller of 1m3: it is sent to the same copy.
    expect(cuesOf(made)['soft']).toEqual({ '1m1': 1, '1m2 v3': 1 });
    // Nobody takes the cellos of 1m2; the other cues have none.
    expect(made.findings.filter(({ code }) => code === 'part-unmapped')).toMatchObject([
      { args: { cue: '1m2 v3', tracks: ['Vc'], notes: 1 } },
    ]);
  });
});

describe('a note that ends where the next cue begins', () => {
  test('is of the cue before, and so is what its end starts', async () => {
    const reel = reelFile([
      piece('1m1', { Vln: note(720, 72) }),
      piece('1m2', { Vln: note(480, 40) }),
    ]);
    const made = await planned({ 'cues/r.mid': reel }, split);
    expect(cuesOf(made)).toMatchObject({ noise: { '1m1': 1 }, low: { '1m2': 1 } });
    expect(made.cues.map(({ music }) => music)).toEqual([1, 0.75]);
  });

  test('one that lasts longer sounds to the end of its cue', async () => {
    const reel = reelFile([
      piece('1m1', { Vln: note(480, 72, 600) }),
      piece('1m2', { Vln: note(480, 40) }),
    ]);
    const made = await planned({ 'cues/r.mid': reel }, split);
    expect(made.cues.map(({ music }) => music)).toEqual([1, 0.75]);
  });
});

describe('files that are one cue after all', () => {
  const silent = reelFile([piece('', { Vln: note(0, 72) })], { markers: false });

  test('without markers, with a note', async () => {
    const made = await planned({ 'cues/1m1.mid': silent }, split);
    expect(made.cues.map(({ id }) => id)).toEqual(['1m1']);
    expect(made.findings).toContainEqual(
      expect.objectContaining({ code: 'cue-not-split', severity: 'note' }),
    );
  });

  test('with several sequences, with a warning', async () => {
    const two = reelFile([piece('1m1', { Vln: note(0, 72) }), piece('1m2', {})]);
    // Bytes 8 and 9 of the header are the format (SMF 1.0, "Header Chunks").
    two[9] = 2;
    const made = await planned({ 'cues/r.mid': two }, split);
    expect(made.cues.map(({ id }) => id)).toEqual(['cues/r']);
    expect(made.findings).toContainEqual(
      expect.objectContaining({
        ...{ code: 'cue-not-split', severity: 'warning', file: 'cues/r.mid' },
        args: { reason: 'several-timelines' },
      }),
    );
  });

  test('a file that can not be read', async () => {
    const files = { 'cues/1m1.mid': silent, 'cues/r.mid': new Uint8Array(20) };
    const made = await planned(files, split);
    expect(made.cues.map(({ id, state }) => [id, state])).toEqual([
      ['1m1', 'read'],
      ['cues/r', 'unreadable'],
    ]);
    expect(codes(made)).toContainEqual(['midi-not-a-midi-file', 'cues/r.mid']);
  });

  test('a file that is another one when it is played', async () => {
    const reel = reelFile([piece('1m1', { Vln: note(0, 72) }), piece('1m2', { Vln: note(0, 40) })]);
    class Restless extends MemoryFiles {
      #times = 0;
      override async read(path: string, ...rest: readonly number[]) {
        const bytes = await super.read(path, ...(rest as []));
        if (path === 'cues/r.mid' && ++this.#times > 1) bytes[bytes.length - 1] = 1;
        return bytes;
      }
    }
    const files = new Restless({
      'keepset.yaml': yaml(everything),
      'band.csv': table,
      'cues/r.mid': reel,
    });
    const made = await plan({ template: 'keepset.yaml', files, ...split });
    expect(made.cues.map(({ id, state }) => [id, state])).toEqual([
      ['1m1', 'unreadable'],
      ['1m2', 'unreadable'],
    ]);
    expect(codes(made)).toContainEqual(['path-changed-while-read', 'cues/r.mid']);
  });
});

describe('damage', () => {
  test('is unknown from where it is on, and no cue before it is', async () => {
    const reel = reelFile([
      piece('1m1', { Vln: note(0, 40) }),
      piece('1m2', { Vln: note(0, 40) }),
      piece('1m3', { Vln: note(480, 40) }),
    ]);
    // The last track ends with: time, note-off, key, velocity, time, FF 2F 00. Cut in its last note.
    const cut = reel.subarray(0, -6);
    const made = await planned({ 'cues/r.mid': cut }, split);
    expect(made.cues.map(({ id, state }) => [id, state])).toEqual([
      ['1m1', 'read'],
      ['1m2', 'read'],
      ['1m3', 'damaged'],
    ]);
    // Whatever it played there counts as needed.
    expect(made.instruments[0]!.zonesKept).toBe(4);
  });

  test('a cue that is damaged can be left out, and the others are whole', async () => {
    const reel = reelFile([
      piece('1m1', { Vln: note(0, 40) }),
      piece('1m2', { Vln: note(480, 40) }),
    ]);
    const made = await planned(
      { 'cues/r.mid': reel.subarray(0, -6) },
      { ...split, without: ['1m2'] },
    );
    expect(made.cues.map(({ id, state }) => [id, state])).toEqual([['1m1', 'read']]);
    expect(made.instruments[0]!.kept.map(({ key }) => key)).toEqual(['low']);
  });
});

test('how far a controller goes counts where it was left, and not where it is set anew', async () => {
  const reel = reelFile([
    piece('1m1', { Vln: [turn(0, 1, 100), ...note(240, 72)] }),
    piece('1m2', { Vln: [...note(240, 72), turn(720, 1, 110)] }),
    piece('1m3', { Vln: [turn(0, 1, 20), ...note(240, 72)] }),
  ]);
  const of = async (without: readonly string[]) => {
    const made = await planned({ 'cues/r.mid': reel }, { ...split, without });
    return made.instruments[0]!.articulations[0]!.controllers;
  };
  expect(await of(['1m2', '1m3'])).toEqual([{ number: 1, range: [100, 100] }]);
  expect(await of(['1m1', '1m3'])).toEqual([{ number: 1, range: [100, 110] }]);
  expect(await of(['1m1', '1m2'])).toEqual([{ number: 1, range: [20, 20] }]);
});
