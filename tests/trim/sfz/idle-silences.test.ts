import { expect, test } from 'vitest';
import { checkAgainstReader } from './against-reader.ts';
import { keepSet } from './trimming.ts';

const lines = (...all: readonly string[]): string => all.map((line) => `${line}\n`).join('');

/** New numbers of the regions that only hold a place, all of `silent` being kept without a sample. */
const placesOf = async (
  text: string,
  loaded: readonly number[],
  silent: readonly number[],
): Promise<readonly number[]> =>
  (await checkAgainstReader({ 'kit.sfz': text }, keepSet(loaded, silent))).trimmed.places;

test('a silent region that has nobody left to stop holds a place', async () => {
  const text = lines(
    '<region> key=59 sample=*sine',
    '<region> key=60 sample=*sine group=1',
    '<region> key=61 sample=*sine off_by=1',
    '<region> key=62 sample=*sine off_by=1',
  );
  expect(await placesOf(text, [2], [1])).toEqual([]);
  expect(await placesOf(text, [2, 3], [1])).toEqual([]);
  expect(await placesOf(text, [0], [1])).toEqual([1]);
  // Another silent one that lets itself be stopped is somebody.
  expect(await placesOf(text, [0], [1, 3])).toEqual([2]);
});

test('one that limits voices stops others whatever is left', async () => {
  expect(await placesOf('<region> key=60 sample=*sine polyphony=1\n', [], [0])).toEqual([]);
});

test('a silent region that no release asks for any more holds a place, before stubs', async () => {
  const text = lines(
    '<region> key=60 sample=*sine',
    '<region> lokey=50 hikey=60 sample=*sine trigger=release',
    '<region> key=61 sample=*sine trigger=release',
    '<region> key=70 sample=*sine sw_last=24',
  );
  expect(await placesOf(text, [1, 2, 3], [0])).toEqual([]);
  expect(await placesOf(text, [2, 3], [0])).toEqual([0]);
  expect(await placesOf(text, [2], [0])).toEqual([0, 2]);
});

test('regions that stay loaded are no places, whatever they play', async () => {
  expect(await placesOf('<region> sample=*silence\n<region> key=1\n', [0], [])).toEqual([]);
});
