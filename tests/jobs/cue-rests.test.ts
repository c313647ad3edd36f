import { describe, expect, test } from 'vitest';
import { sha256 } from '../../src/files/digest.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { readCueRests, type ReadRests, type RestsOptions } from '../../src/jobs/cue-rests.ts';
import { loadInstruments } from '../../src/jobs/load-instruments.ts';
import { readTemplate } from '../../src/template/read-template.ts';
import { cueBytes, type CueTrack } from './midi-cue.ts';
import { lift, reelFile, strike, turn, type Placed } from './reel-file.ts';

const table = `key,articulation,switch,keys,velocities,bytes
long,long,24,40-90,1-127,1000
short,short,25,40-90,1-127,2000
`;

/** 480 ticks a quarter at 120 a minute, 4/4: 960 ticks are a second, and a bar has two. */
const second = 960;

const yaml = (more: string): string => `
cues: cues
instruments:
  horns: { zones: band.csv, middle-c: C4 }
  harp: { zones: band.csv, middle-c: C4 }
${more}`;

const byName = `routes:
  - { track: "Horn*", instrument: horns }
  - { track: "Harp", instrument: harp }
  - { track: "Old horns", instrument: horns, printed: true }`;

const plain = { cues: [], without: [], newest: false, split: null, isPartial: false } as const;

const read = async (
  cues: Readonly<Record<string, Uint8Array>>,
  cue: string,
  reel: Partial<Parameters<typeof readCueRests>[4]> = {},
  options: RestsOptions = {},
): Promise<ReadRests> => {
  const files = new MemoryFiles({
    'keepset.yaml': yaml(byName),
    'band.csv': table,
    ...Object.fromEntries(Object.entries(cues).map(([id, bytes]) => [`cues/${id}.mid`, bytes])),
  });
  const template = await readTemplate(files, 'keepset.yaml', (parts) => sha256(...parts));
  const instruments = await loadInstruments(files, template);
  return readCueRests(files, template, instruments, cue, { ...plain, ...reel }, options);
};

const note = (from: number, to: number, key = 60) => ({
  tick: from * second,
  length: (to - from) * second,
  key,
  velocity: 80,
});

const track = (name: string, ...notes: CueTrack['notes']): CueTrack => ({ name, notes });

/** Per instrument its notes, where it begins and ends, and its rests. */
const told = ({ times }: ReadRests) =>
  Object.fromEntries(
    times.instruments.map(({ id, notes, first, last, rests }) => [
      id,
      [
        notes,
        first.seconds,
        last.seconds,
        ...rests.map(({ at, from, to }) => `${at} ${String(from.seconds)}-${String(to.seconds)}`),
      ],
    ]),
  );

const faded = { unknown: 0.5 };

describe('rests of a cue from its files', () => {
  const cues = {
    '1m1': cueBytes([
      track('Horn 1', note(4, 6), note(30, 31)),
      track('Horn 2', note(5, 8), note(20, 21)),
      track('Harp', note(38, 40)),
      track('Old horns', note(12, 13)),
    ]),
    '1m2': cueBytes([track('Harp', note(1, 2))]),
  };

  test('all copies of an instrument, printed ones left out', async () => {
    const made = await read(cues, '1m1', {}, faded);
    expect(made).toMatchObject({ id: '1m1', unreadable: [] });
    expect(made.times.end).toMatchObject({ bar: 21, beat: 1, seconds: 40 });
    // The harp fades beyond the end of the cue.
    expect(told(made)).toEqual({
      horns: [4, 4, 31.5, 'between 8.5-20', 'between 21.5-30', 'after 31.5-40'],
      harp: [1, 38, 40, 'before 0-38'],
    });
  });

  test('a table does not say how long its sounds fade: to the end of the cue', async () => {
    const made = await read(cues, '1m1');
    expect(told(made)).toEqual({
      horns: [4, 4, 40, 'before 0-4'],
      harp: [1, 38, 40, 'before 0-38'],
    });
  });

  test('pedals count where nothing else asks for them, and a switch ends a rest', async () => {
    const events: readonly Placed[] = [
      ...[strike(0, 60), turn(480, 64, 127), lift(second, 60), turn(9 * second, 64, 0)],
      ...[strike(12 * second, 25), lift(12 * second + 480, 25)],
      ...[strike(20 * second, 60), lift(21 * second, 60)],
    ];
    const bytes = reelFile([{ marker: '1m1', length: 24 * second, tracks: { Harp: events } }]);
    expect(told(await read({ '1m1': bytes }, '1m1', {}, faded))).toEqual({
      harp: [3, 0, 21.5, 'between 12.5-20', 'between 9.5-12', 'after 21.5-24'],
    });
  });

  test('several files are one cue', async () => {
    const made = await read(
      {
        '1m1 brass': cueBytes([track('Horn 1', note(0, 1))]),
        '1m1 harp': cueBytes([track('Harp', note(5, 6)), track('Horn 2', note(9, 10))]),
        '1m2': cues['1m2'],
      },
      '1m1',
      {},
      faded,
    );
    expect(told(made)).toEqual({
      horns: [2, 0, 10, 'between 1.5-9'],
      harp: [1, 5, 6.5, 'before 0-5', 'after 6.5-10'],
    });
  });

  test('one of the cues that a file holds, where the cue before has left keys and pedals', async () => {
    const reel = reelFile([
      {
        marker: '1m1',
        length: 10 * second,
        tracks: {
          Harp: [strike(second, 60), lift(2 * second, 60), strike(8 * second, 64)],
          // It goes up where the next cue begins.
          'Horn 2': [strike(9 * second, 60), lift(10 * second, 60)],
        },
      },
      {
        marker: '1m2',
        length: 20 * second,
        tracks: {
          Harp: [lift(second, 64), strike(12 * second, 60), lift(13 * second, 60)],
          'Horn 1': [strike(6 * second, 60), lift(8 * second, 60)],
        },
      },
    ]);
    const split = { split: 'markers' } as const;
    const made = await read({ 'Reel 1': reel }, '1m2', split, faded);
    expect(made.times.start).toMatchObject({ bar: 6, beat: 1, seconds: 10 });
    expect(made.times.end).toMatchObject({ bar: 16, beat: 1, seconds: 30 });
    expect(told(made)).toEqual({
      // Its key is down when the cue begins.
      harp: [1, 10, 23.5, 'between 11.5-22', 'after 23.5-30'],
      horns: [1, 10, 18.5, 'after 18.5-30', 'between 10.5-16'],
    });
    // What fades for as long as its cue does not reach into the next.
    const first = await read({ 'Reel 1': reel }, '1m1', split);
    expect(told(first)).toEqual({ harp: [2, 1, 10], horns: [1, 9, 10, 'before 0-9'] });
    const second1 = await read({ 'Reel 1': reel }, '1m2', split);
    expect(told(second1)).toEqual({
      harp: [1, 10, 30],
      horns: [1, 16, 30, 'before 10-16'],
    });
  });

  test('what could not be read may sound', async () => {
    const whole = cueBytes([track('Harp', note(4, 6), note(20, 21))]);
    // The last note-off and all behind it are cut away: from second 20 on nothing is known.
    const cut = await read({ '1m1': whole.subarray(0, -9) }, '1m1', {}, faded);
    expect(told(cut)).toEqual({ harp: [2, 4, 20, 'between 6.5-20', 'before 0-4'] });
    const none = await read({ '1m1': Uint8Array.of(1, 2, 3) }, '1m1');
    expect(none.unreadable).toEqual(['cues/1m1.mid']);
    expect(told(none)).toEqual({ horns: [0, 0, 0], harp: [0, 0, 0] });
    // Another file of the cue was read: there is no rest all the same.
    const both = await read({ '1m1 a': Uint8Array.of(1, 2, 3), '1m1 b': whole }, '1m1', {}, faded);
    expect(told(both)).toEqual({ horns: [0, 0, 21], harp: [2, 0, 21] });
  });

  test('a cue that is not there', async () => {
    await expect(read(cues, '1m11')).rejects.toMatchObject({
      name: 'UsageError',
      message: 'No cue is called "1m11".',
      hint: 'Did you mean "1m1"?',
    });
    await expect(read(cues, 'opening titles')).rejects.toMatchObject({
      hint: 'The cues are 1m1, 1m2.',
    });
    await expect(read(cues, '1m1', { without: ['1m1'] })).rejects.toThrow(/No cue/);
  });

  test('a version may be left out where there is one', async () => {
    const versions = { '1m1 v2': cues['1m1'], '1m1 v3': cues['1m2'], '1m2 v4': cues['1m2'] };
    expect((await read(versions, '1m2')).id).toBe('1m2 v4');
    await expect(read(versions, '1m1')).rejects.toMatchObject({
      message: 'There are several versions of "1m1".',
      hint: 'Write which one: 1m1 v2, 1m1 v3.',
    });
    expect((await read(versions, '1m1', { newest: true })).id).toBe('1m1 v3');
  });
});
