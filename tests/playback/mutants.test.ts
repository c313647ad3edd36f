import { cp, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { pathToFileURL } from 'node:url';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { randomBank } from '../oracle/random-bank.ts';
import { randomEvents } from '../oracle/random-events.ts';
import { engineReached, oracleReached } from './against-oracle.ts';
import type { Engine } from './engine-under-test.ts';

/**
 * Is the oracle's comparison able to fail? Each mutant is the built engine with one rule broken; the
 * comparison must catch every one of them.
 */
type Mutant = readonly [rule: string, file: string, original: string, broken: string];

const mutants: readonly Mutant[] = [
  ['a limit off by one', 'keep/reacher.js', 'keys[1] >= key - room', 'keys[1] > key - room'],
  [
    'no fallback to program 0',
    'instruments/soundfont/patch-tests.js',
    'program === 0 ? programs : [program]',
    '[program]',
  ],
  [
    'the legato pedal is not followed',
    'playback/play-copy.js',
    'this.#legato.has(channel) || ',
    '',
  ],
  ['mono mode is not followed', 'playback/play-copy.js', ' || this.#mono.has(channel)', ''],
  ['CC0 is not the bank', 'playback/bank-reader.js', 'return msb;', 'return 0;'],
  [
    'channel 10 plays no drums',
    'playback/bank-reader.js',
    'this.#drums[drumChannel] = 1',
    'this.#drums[drumChannel] = 0',
  ],
  [
    'events of one tick have one order',
    'playback/cell.js',
    'if (this.#before === null)\n            return now;',
    'return now;',
  ],
  [
    'nothing was chosen before the cue',
    'playback/patch-signal.js',
    "i === 0 ? [{ value: 'chosen', doubt: startState }] : []",
    '[]',
  ],
  ['device id 0x10 is not answered to', 'playback/bank-reader.js', 'device === 0x10', 'false'],
  ['velocity 0 starts a note', 'playback/play-copy.js', '(status < 0xa0 && data2 === 0)', 'false'],
  [
    'global ranges are not passed on',
    'instruments/soundfont/starts.js',
    'areaOf(zone, global)',
    'areaOf(zone, nothing)',
  ],
  [
    'channel coarse tuning moves no key',
    'playback/tuning.js',
    'const own = this.#semitones[channel]',
    'const own = 0',
  ],
  [
    'a bank select after its program on one tick counts for the next only',
    'playback/patch-signal.js',
    'if (!bankSelected || programs.size === 0)',
    'if (true)',
  ],
  [
    'goes back to a held key whichever key is lifted',
    'playback/play-copy.js',
    'wasLatest ? scope.held.latest(channel) : null',
    'scope.held.latest(channel)',
  ],
];

const folder = (index: number): URL => new URL(`../../.cache/mutants/${index}/`, import.meta.url);
const dist = new URL('../../dist/', import.meta.url);

const load = async (root: URL): Promise<Engine> => {
  const module = async (path: string): Promise<Engine> =>
    (await import(/* @vite-ignore */ pathToFileURL(new URL(path, root).pathname).href)) as Engine;
  return {
    ...(await module('instruments/soundfont/read.js')),
    ...(await module('playback/play-cue.js')),
    ...(await module('keep/reach.js')),
    ...(await module('midi/parts.js')),
    ...(await module('files/memory-files.js')),
    ...(await module('files/digest.js')),
  };
};

const makeMutant = async (index: number): Promise<Engine> => {
  const [, file, original, broken] = mutants[index]!;
  const root = folder(index);
  await mkdir(root, { recursive: true });
  for (const part of [
    'terms',
    'notation',
    'midi',
    'instruments',
    'template',
    'playback',
    'memory',
    'keep',
    'files',
  ]) {
    await cp(new URL(`${part}/`, dist), new URL(`${part}/`, root), {
      recursive: true,
      filter: (source) => !source.endsWith('.map'),
    });
  }
  const path = new URL(file, root);
  const text = await readFile(path, 'utf8');
  expect(text.split(original).length, `${file} holds the rule once`).toBe(2);
  await writeFile(path, text.replace(original, broken));
  return load(root);
};

const clear = (): Promise<void> =>
  rm(new URL('../../.cache/mutants/', import.meta.url), { recursive: true, force: true });

/** The first counterexample ends the search; shrinking it would only take time. */
const differs = async (engine: Engine, numRuns: number): Promise<boolean> => {
  const property = fc.asyncProperty(randomBank(), randomEvents(), async (bank, events) => {
    const ours = JSON.stringify(await engineReached(engine, bank, events));
    return ours === JSON.stringify(oracleReached(bank, events));
  });
  const { failed } = await fc.check(property, { seed: 7, numRuns, endOnFailure: true });
  return failed;
};

beforeAll(clear);
afterAll(clear);

describe('mutants of the engine', { timeout: 300_000 }, () => {
  test('the built engine itself is not caught', async () => {
    expect(await differs(await load(dist), 50)).toBe(false);
  });

  test.each(mutants.map(([rule], index) => [rule, index] as const))(
    'caught: %s',
    async (_rule, index) => {
      expect(await differs(await makeMutant(index), 600)).toBe(true);
    },
  );
});
