import { describe, expect, test } from 'vitest';
import type { Score } from '../../src/midi/score.ts';
import { patchValue } from '../../src/instruments/program.ts';
import { readTable } from '../instruments/zone-table/reading.ts';
import { readText } from '../playback/sfz-cue.ts';
import { readBank } from '../instruments/soundfont/reading.ts';
import { bankPlan } from '../jobs/small-score.ts';
import { writeBank } from '../oracle/soundfont-bytes.ts';
import { copyOf, groupOf, written } from './priming.ts';

/** Events of the first track as `milliseconds kind data1 data2`, read from the file. */
const listed = ({ tracks }: Score): readonly string[] => {
  const { tick, status, data1, data2 } = tracks[0]!.events;
  const kinds = ['off', 'on', 'poly', 'cc', 'program', 'pressure', 'bend'];
  return [...tick.keys()].map((i) => {
    const ms = Math.round((tick[i]! / 960) * 1000) - 500;
    return `${String(ms)} ${kinds[(status[i]! >> 4) - 8]!} ${String(data1[i])} ${String(data2[i])}`;
  });
};

const strikes = (score: Score): readonly number[] => {
  const { status, data1 } = score.tracks[0]!.events;
  return [...status.keys()].filter((i) => status[i]! >> 4 === 9).map((i) => data1[i]!);
};

const articulated = () =>
  readTable(
    [
      'articulation,switch,keys,round-robin,bytes,key',
      'long,24,60-71,,1000,long',
      'short,25,60-71,3,1000,short',
    ].join('\n'),
  );

describe('what is written', () => {
  test('a switch, 60 ms, then the note as often as it has takes', () => {
    const table = articulated();
    // The table: row `short` has three takes, zones 1 to 3.
    const { score, doubts } = written(groupOf(copyOf(table, [1, 2, 3])));
    expect(listed(score).filter((line) => line.includes(' on '))).toEqual([
      '0 on 25 64',
      '210 on 65 64',
      '335 on 65 64',
      '460 on 65 64',
    ]);
    expect(doubts[0]!.map(([first]) => first)).toEqual([undefined, 0, 0, 0]);
  });

  test('what arrives is right where the route transposes and scales', () => {
    const swapped = new Map([
      [20, 1],
      [1, 20],
    ]);
    const transform = { transpose: 12, velocity: 0.5, controllers: swapped };
    const table = readTable(
      'keys,velocities,controllers,bytes,key\n60-71,1-40,1:100-127,1000,a\n60-71,41-60,1:100-127,1000,b',
    );
    const { score, synthesis, doubts } = written(groupOf(copyOf(table, [0, 1], { transform })));
    expect(synthesis.primed).toEqual([[0, 1]]);
    expect(doubts[0]!.map(([first]) => first)).toEqual([0, 0]);
    for (const key of strikes(score)) expect(key).toBeLessThan(60);
    expect(listed(score).some((line) => line.includes('cc 20'))).toBe(true);
    expect(listed(score).some((line) => line.includes('cc 1 '))).toBe(false);
  });

  test('controllers go back to what they are at power-on, and no pedal stays down', async () => {
    const pedalled = await readText('<region> sample=a.wav locc64=64 locc20=100');
    const { score } = written(groupOf(copyOf(pedalled, [0])));
    const last = new Map(
      listed(score)
        .filter((line) => line.includes(' cc '))
        .map((line) => line.split(' ').slice(2) as [string, string]),
    );
    expect(Object.fromEntries(last)).toEqual({ 20: '0', 64: '0' });
  });
});

describe('nothing else is started', () => {
  test('neither of two copies that hear one track loads what it has dropped', () => {
    const one = readTable('keys,bytes,key\n40-80,1000,all');
    const two = readTable('keys,bytes,key\n40-59,1000,low\n60-80,1000,high');
    const group = groupOf(copyOf(one, [0]), copyOf(two, [1], { name: 'other' }));
    const { score, doubts } = written(group);
    expect(strikes(score).every((key) => key >= 60)).toBe(true);
    expect(doubts[0]![0]).toEqual([0]);
    expect(doubts[1]).toEqual([[], [0]]);
  });

  test('what no note starts alone is told apart from what can not be sent', async () => {
    const sfz = await readText(
      [
        '<region> sample=a.wav key=60',
        '<region> sample=b.wav key=60',
        '<region> sample=c.wav key=62 lobpm=60 hibpm=70',
      ].join('\n'),
    );
    const { synthesis } = written(groupOf(copyOf(sfz, [0, 2])));
    expect(synthesis.notPrimed[0]).toEqual([
      { zone: 0, because: 'others' },
      { zone: 2, because: 'conditions' },
    ]);
  });
});

describe('situations', () => {
  test.each([
    ['legato', '<region> sample=a.wav trigger=first\n<region> sample=b.wav trigger=legato'],
    ['release under a pedal', '<region> sample=a.wav\n<region> sample=b.wav trigger=release'],
    ['key up', '<region> sample=a.wav\n<region> sample=b.wav trigger=release_key locc64=64'],
    ['a controller starts it', '<region> sample=a.wav key=-1 on_locc20=64 on_hicc20=127'],
    ['the note before', '<region> sample=a.wav\n<region> sample=b.wav sw_previous=62'],
    ['a held switch', '<region> sample=a.wav lokey=60\n<region> sample=b.wav sw_down=24 lokey=60'],
    ['bend and pressure', '<region> sample=a.wav lobend=100 lochanaft=64'],
  ])('%s', async (_, text) => {
    const sfz = await readText(text);
    const zones = [...sfz.zones.keys()];
    const { synthesis, doubts } = written(groupOf(copyOf(sfz, zones)));
    expect(synthesis.notPrimed).toEqual([[]]);
    for (const zone of zones) expect(doubts[0]![zone]).toEqual([0]);
  });

  test('programs of a bank', async () => {
    const bank = await readBank(writeBank(bankPlan));
    const { score, doubts } = written(groupOf(copyOf(bank, [0, 3])));
    expect(doubts[0]!.map(([first]) => first)).toEqual([0, undefined, undefined, 0]);
    // Programs 0 and 48 (small-score.ts), and 0 again at the end.
    expect(patchValue(0, 48)).toBe(48 * 32768);
    const programs = listed(score).filter((line) => line.includes('program'));
    expect(programs).toHaveLength(3);
    expect(programs[2]).toMatch(/ program 0 0$/u);
  });
});

test('rounds and draws: as often as the round asks, until a miss is rarer than 1 in 1000', async () => {
  const round = await readText('<region> sample=a.wav key=60 seq_length=4 seq_position=3');
  expect(strikes(written(groupOf(copyOf(round, [0]))).score)).toHaveLength(4);
  const drawn = await readText(
    '<region> sample=a.wav key=60 hirand=0.5\n<region> sample=b.wav key=60 lorand=0.5',
  );
  const { score, synthesis } = written(groupOf(copyOf(drawn, [0, 1])));
  // 0.5 to the power of 10 is 1 in 1024.
  expect(strikes(score)).toHaveLength(10);
  expect(synthesis.chances).toEqual([{ zones: 2, plays: 10, miss: 1 / 1024 }]);
});

test('pace, length of notes and voices', () => {
  const rows = Array.from({ length: 40 }, (_, i) => `${String(30 + i)},1000,k${String(i)}`);
  const table = readTable(['keys,bytes,key', ...rows].join('\n'));
  const { score, seconds } = written(groupOf(copyOf(table, table.zones.keys())), 4);
  const { tick, status } = score.tracks[0]!.events;
  let down = 0;
  const begins: number[] = [];
  for (let i = 0; i < tick.length; i++) {
    const kind = status[i]! >> 4;
    if (kind === 9) begins.push(tick[i]! / 960);
    down += kind === 9 ? 1 : kind === 8 ? -1 : 0;
    expect(down).toBeLessThanOrEqual(32);
  }
  expect(begins).toHaveLength(40);
  begins.slice(1).forEach((at, i) => expect(at - begins[i]!).toBeGreaterThanOrEqual(0.25 - 1e-9));
  expect(seconds).toBeGreaterThan(10);
});
