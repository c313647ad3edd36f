import { expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { unlinked } from '../prove/unlinked.ts';
import { readBank } from './read-bank.ts';

const { bytes } = demoFiles().find(({ path }) => path.endsWith('.sf2'))!;

test('a bank without stereo links is the same but for them', () => {
  const changed = unlinked(bytes);
  const [before, after] = [readBank(bytes), readBank(changed)];
  expect(before.samples.some(({ type, link }) => type === 4 && link !== 0)).toBe(true);
  expect(after.samples).toEqual(before.samples.map((sample) => ({ ...sample, type: 1, link: 0 })));
  // The headers are the last list of a bank: all before them stays byte for byte.
  const headers = bytes.length - 46 * (before.samples.length + 1);
  expect(Buffer.compare(changed.subarray(0, headers), bytes.subarray(0, headers))).toBe(0);
  expect(changed).toHaveLength(bytes.length);
});
