import { describe, expect, test } from 'vitest';
import { readMidi } from '../../src/midi/read-midi.ts';
import { synthesise } from '../../src/primer/synthesis/synthesise.ts';
import { readBank } from '../instruments/soundfont/reading.ts';
import { readTable } from '../instruments/zone-table/reading.ts';
import { bankPlan, cue, note, program, type Part } from '../jobs/small-score.ts';
import { writeBank } from '../oracle/soundfont-bytes.ts';
import { copyOf, groupOf } from './priming.ts';

const controller = (tick: number, number: number, value: number): Part['events'][number] => [
  [tick, { type: 'controller', channel: 0, controllerType: number, value } as never],
];

/** Messages at the end of a primer, as `kind data1 data2`; those that put `base` back. */
const restored = (
  copy: ReturnType<typeof copyOf>,
  ...events: Part['events']
): readonly string[] => {
  const base = readMidi(cue({ name: 'Track 0', events }), 'base.mid');
  const synthesis = synthesise({ ...groupOf(copy), base });
  // Steps that prime nothing would leave nothing to put back.
  expect(synthesis.notPrimed).toEqual([[]]);
  const kinds = ['off', 'on', 'poly', 'cc', 'program', 'pressure', 'bend'];
  return synthesis.restore.map(
    ({ status, data1, data2 }) => `${kinds[(status >> 4) - 8]!} ${String(data1)} ${String(data2)}`,
  );
};

describe('at the end', () => {
  const layered = () =>
    readTable('keys,controllers,bytes,key\n60-71,20:0-63,1000,low\n60-71,20:64-127,1000,high');

  test('controllers go back to what the base sets first, not last', () => {
    const copy = copyOf(layered(), [0, 1]);
    const back = restored(copy, controller(0, 20, 77), note(0, 60), controller(960, 20, 12));
    expect(back).toContain('cc 20 77');
    expect(back.filter((one) => one.startsWith('cc 20 '))).toHaveLength(1);
    // Where the base says nothing: as at power-on, 0 (RP-015).
    expect(restored(copy, note(0, 60))).toContain('cc 20 0');
  });

  test('pedals go up, whatever the base sets first', () => {
    const copy = copyOf(readTable('keys,controllers,bytes,key\n60-71,64:64-127,1000,down'), [0]);
    const back = restored(copy, controller(0, 64, 127), note(0, 60));
    expect(back.filter((one) => one.startsWith('cc 64 '))).toEqual(['cc 64 0']);
  });

  test('the switch that the base presses first is pressed', () => {
    const table = readTable(
      'articulation,switch,keys,bytes,key\nlong,24,60-71,1000,long\nshort,25,60-71,1000,short',
    );
    const presses = (...events: Part['events']): readonly string[] =>
      restored(copyOf(table, [0, 1]), ...events).filter((one) => one.startsWith('on '));
    expect(presses(note(0, 25), note(480, 60), note(960, 24))).toEqual(['on 25 64']);
    expect(presses(note(0, 24), note(480, 60), note(960, 25))).toEqual(['on 24 64']);
  });

  test('the program of the base comes last, behind its bank', async () => {
    const bank = await readBank(writeBank(bankPlan));
    // Programs 0 and 48 of bank 0 (small-score.ts).
    const back = restored(copyOf(bank, [0, 3]), program(0, 48), note(0, 60), program(960, 0));
    expect(back.slice(-3)).toEqual(['cc 0 0', 'cc 32 0', 'program 48 0']);
  });
});

describe('where putting back would load what was dropped', () => {
  test('a switch that plays stays unpressed', () => {
    const table = readTable(
      [
        'articulation,switch,keys,bytes,key',
        'long,24,60-71,1000,long',
        'short,25,60-71,1000,short',
        'thud,,24,1000,thud',
      ].join('\n'),
    );
    // `short` alone is kept: the base's first switch, 24, would play the thud.
    const back = restored(copyOf(table, [1]), note(0, 24), note(480, 60));
    expect(back).not.toContain('on 24 64');
  });

  test('a fader stays where it is while what sounds would fade in', () => {
    const table = readTable(
      'keys,controllers,bytes,key\n60-71,20:0-63,1000,low\n60-71,20:64-127,1000,high',
    );
    // The base sets 100 first: there `high` sounds, which was dropped.
    const back = restored(copyOf(table, [0]), controller(0, 20, 100), note(0, 60));
    expect(back.filter((one) => one.startsWith('cc 20 '))).toEqual([]);
  });
});
