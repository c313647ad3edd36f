/** What makes the demo worth showing: how much of the bank its cues leave alone. */
import { expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { naiveReach } from './naive-reach.ts';
import { readBank } from './read-bank.ts';

const files = demoFiles();
const bank = readBank(files.find(({ path }) => path.endsWith('.sf2'))!.bytes);
const reaches = new Map(
  files
    .filter(({ path }) => path.startsWith('cues/'))
    .map(({ path, bytes }) => [path.replace(/^cues\/|\.mid$/g, ''), naiveReach(bank, bytes)]),
);
const all = [...reaches.values()];
const bytesOf = (samples: Iterable<number>): number =>
  [...samples].reduce(
    (sum, index) => sum + 2 * (bank.samples[index]!.end - bank.samples[index]!.start),
    0,
  );

/**
 * Keyswitches start nothing in the bank. In both versions of 1m2: three of the chamber strings; in 1m3
 * and 2m3: one of the bassoon; in 1m4: one of the cello; in 2m4: three of the fiddle, two of the
 * chamber strings, and three of the cello.
 */
const switches: Readonly<Record<string, number>> = {
  '1m2': 3,
  '1m3': 1,
  '1m4': 1,
  '2m3': 1,
  '2m4': 8,
};
const switchesOf = (title: string): number => switches[title.slice(0, 3)] ?? 0;

test('every note of every cue meets a zone, but for the keyswitches', () => {
  for (const [title, { notes, silent }] of reaches) {
    expect(notes, title).toBeGreaterThan(80);
    expect(silent, title).toBe(switchesOf(title));
  }
});

test('the reel needs between a fifth and two fifths of the bank', () => {
  const reached = bytesOf(new Set(all.flatMap(({ samples }) => [...samples])));
  const share = reached / bytesOf(bank.samples.keys());
  expect(share).toBeGreaterThan(0.2);
  expect(share).toBeLessThan(0.4);
});

test('one preset is never played, all the others are', () => {
  const played = new Set(all.flatMap(({ presets }) => [...presets]));
  const silent = bank.presets.filter(
    ({ bank: number, program }) => !played.has(`${number}:${program}`),
  );
  expect(silent.map(({ name }) => name)).toEqual(['Squeezebox']);
});

test('version 4 of 1m2 reaches zones that neither version 3 nor any other cue does', () => {
  const others = [...reaches].filter(([title]) => title !== '1m2 Harbour v4');
  const known = new Set(others.flatMap(([, { zones }]) => [...zones]));
  const added = [...reaches.get('1m2 Harbour v4')!.zones].filter((zone) => !known.has(zone));
  expect(added).toHaveLength(3);
  const before = reaches.get('1m2 Harbour v3')!.zones;
  expect([...before].every((zone) => reaches.get('1m2 Harbour v4')!.zones.has(zone))).toBe(true);
});

test('the horns of 2m1 fall back from bank 1 to bank 0', () => {
  expect(reaches.get('2m1 Low Water')!.presets).toContain('0:60');
  expect(reaches.get('2m1 Low Water')!.presets).toContain('1:48');
});
