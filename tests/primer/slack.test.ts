import { describe, expect, test } from 'vitest';
import { readMidi } from '../../src/midi/read-midi.ts';
import { waitsOf } from '../../src/primer/synthesis/waits.ts';
import { Performer } from '../../src/primer/synthesis/performer.ts';
import { restoring } from '../../src/primer/synthesis/restoring.ts';
import { synthesise } from '../../src/primer/synthesis/synthesise.ts';
import { unchanged } from '../../src/template/route.ts';
import { readTable } from '../instruments/zone-table/reading.ts';
import { cue, note } from '../jobs/small-score.ts';
import { copyOf, groupOf } from './priming.ts';

const table = () =>
  readTable(
    'articulation,switch,keys,bytes,key\nlong,24,60-71,1000,long\nshort,25,60-71,1000,short',
  );

/** Note-ons of all steps, in seconds from the beginning. */
const strikes = (slack: number): readonly (readonly [key: number, at: number])[] => {
  const { steps, notPrimed } = synthesise(groupOf({ ...copyOf(table(), [0, 1]), slack }));
  expect(notPrimed).toEqual([[]]);
  let begin = 0;
  return steps.flatMap(({ messages, seconds }) => {
    const from = begin;
    begin += seconds;
    return messages
      .filter(({ status }) => status >> 4 === 9)
      .map((one) => [one.data1, from + one.seconds] as const);
  });
};

describe('where switches and notes may have been moved', () => {
  test('every switch is further from every note than that', () => {
    const all = strikes(0.3);
    const isSwitch = (key: number): boolean => key < 60;
    expect(all.filter(([key]) => isSwitch(key))).toHaveLength(2);
    for (const [one, at] of all) {
      for (const [other, then] of all) {
        if (isSwitch(one) && !isSwitch(other)) expect(Math.abs(at - then)).toBeGreaterThan(0.3);
      }
    }
  });

  test('elsewhere they are as close as ever', () => {
    const all = strikes(0);
    expect(all.at(-1)![1] - all[0]![1]).toBeLessThan(1);
  });
});

describe('a switch track of its own', () => {
  test('says which switch is pressed at the end', () => {
    const one = copyOf(table(), [0, 1]);
    const sources = [0, 1].map((track) => ({
      ...{ track, port: 0, channels: 0xffff, transform: unchanged },
    }));
    const copy = { ...one, copy: { ...one.copy, sources } };
    const base = readMidi(
      cue({ name: 'Notes', events: [note(480, 60)] }, { name: 'Switches', events: [note(0, 25)] }),
      'base.mid',
    );
    const moved = [24, 25].map((data1, i) => ({
      ...{ lane: { track: 0, port: 0, channel: 0 }, status: 0x90, data1, data2: 64, seconds: i },
    }));
    const pressed = (from: Parameters<typeof restoring>[0]): readonly number[] =>
      restoring(from, moved).flatMap(({ status, data1 }) => (status === 0x90 ? [data1] : []));
    expect(pressed({ copies: [copy], base })).toEqual([25]);
    // Without the switch track nothing says it, and the table has no default.
    expect(pressed({ copies: [one], base })).toEqual([]);
  });
});

test('what never dies away is not waited for', () => {
  const performer = new Performer(copyOf(table(), [0]));
  const tails = (...ends: readonly number[]): readonly string[] => {
    performer.state.tails = ends.map((until) => ({ start: 0, scope: 0, until }));
    return waitsOf(performer, 1);
  };
  expect(tails(Infinity)).toEqual([]);
  expect(tails(Infinity, 3)).toEqual(['tails']);
  expect(tails(0.5)).toEqual([]);
});
