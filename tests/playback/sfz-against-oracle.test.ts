import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SfzEvent, SfzReel } from '../oracle/sfz-data.ts';
import { instrument } from '../oracle/sfz-shorthand.ts';
import { randomReel, randomSfz } from '../oracle/sfz-random.ts';
import { inSeconds } from './sfz-cue.ts';
import { byEngine, byOracle } from './sfz-verdicts.ts';
import { runs } from '../runs.ts';

/**
 * The engine and the compiler of SFZ against a naive player that was written from the facts alone and
 * imports nothing of ours: every region against every event.
 */

/** How many random instruments each test plays: always the same ones, unless a number is asked for. */
const asked = process.env['KEEPSET_SFZ_RUNS'];
const sample =
  asked === undefined ? { numRuns: runs(250, 100), seed: 20 } : { numRuns: Number(asked) };

/** A reel as its fixture has it: lines of `tick channel kind data1 data2`, each cue led by `cue`. */
const reelOf = (text: string): SfzReel => {
  const cues: SfzEvent[][] = [];
  for (const line of text.trim().split('\n')) {
    if (line === 'cue') {
      cues.push([]);
      continue;
    }
    const [tick, channel, kind, data1, data2] = line.split(' ');
    cues.at(-1)!.push({
      tick: Number(tick),
      seconds: 0,
      channel: Number(channel),
      kind: kind as SfzEvent['kind'],
      data1: Number(data1),
      data2: Number(data2),
    });
  }
  return cues.map((events) => inSeconds({ events, tempos: [] }));
};

const folder = new URL('../fixtures/sfz/', import.meta.url);

describe('what random instruments found once', () => {
  test.each(readdirSync(folder))('%s', async (name) => {
    const read = (file: string): string => readFileSync(new URL(`${name}/${file}`, folder), 'utf8');
    const data = instrument(read('instrument.sfz'));
    const reel = reelOf(read('reel.txt'));
    expect(await byEngine(data, reel)).toEqual(byOracle(data, reel));
  });
});

describe('reaches exactly the regions and doubts of the naive player', () => {
  test.each([
    ['without fades', { fades: false }],
    ['with fades', { fades: true }],
  ])(
    '%s',
    async (_, options) => {
      await fc.assert(
        fc.asyncProperty(randomSfz(options), randomReel(), async (data, cues) => {
          const reel = cues.map(inSeconds);
          expect(await byEngine(data, reel)).toEqual(byOracle(data, reel));
        }),
        sample,
      );
    },
    3_600_000,
  );
});
