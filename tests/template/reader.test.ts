import { expect, test } from 'vitest';
import { cases, expectedOf, filesOf, printed, readFiles } from './reader-cases.ts';

/**
 * What the terminal prints for each mistake that a person makes, and for what is none. A new folder
 * fails with the text that its `expected.txt` is to hold, once that has been read and found right.
 */
test.each(cases)('%s', async (name) => {
  const text = await printed(readFiles(filesOf(name)));
  const expected = expectedOf(name);
  if (expected === null)
    throw new Error(`${name}/expected.txt is not there. It would be:\n${text}`);
  expect(text).toBe(expected);
});

test.each(cases)('%s is an error unless its name begins with good-', (name) => {
  expect(/^(?:error\[|.*\nerror\[)/su.test(expectedOf(name) ?? '')).toBe(!name.startsWith('good-'));
});

test('there is a case for what the first users will get wrong', () => {
  expect(cases.length).toBeGreaterThan(80);
});
