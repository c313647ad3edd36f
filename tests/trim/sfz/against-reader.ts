import { expect } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readSfz } from '../../../src/instruments/sfz/read.ts';
import { structureOf, type Region } from '../../../src/instruments/sfz/structure/regions.ts';
import { readDocument } from '../../../src/instruments/sfz/text/read-document.ts';
import type { TrimSet } from '../../../src/trim/trim-set.ts';
import { trim, type Contents, type Made } from './trimming.ts';

/** What counts in a region: its opcodes as they apply, and what `<control>` says. */
const facts = ({ opcodes, control }: Region) => ({
  opcodes: opcodes.map(({ name, value }) => `${name}=${value}`),
  control,
});

const sampleOf = ({ opcodes }: Region): string =>
  opcodes.findLast(({ name }) => name === 'sample')?.value ?? '';

const regionsIn = async (contents: Contents, root: string): Promise<readonly Region[]> =>
  structureOf(await readDocument(new MemoryFiles(contents), root)).regions;

/**
 * Trims, and reads before and after: the regions that stay are the same ones, silent ones have lost
 * what they play, those that were added play nothing on any key, and places are what nothing starts.
 */
export const checkAgainstReader = async (
  contents: Contents,
  keep: TrimSet,
  root = 'kit.sfz',
): Promise<Made> => {
  const made = await trim(contents, keep, root);
  const before = await regionsIn(contents, root);
  const after = await regionsIn(made.bytes, root);
  const kept = before.filter(({ number }) => keep.loaded.has(number) || keep.silent.has(number));
  expect([...made.trimmed.zones]).toEqual(kept.map(({ number }, now) => [number, now]));
  for (const [now, region] of kept.entries()) {
    const { opcodes, control } = facts(after[now]!);
    expect(control).toEqual(region.control);
    const sounds = !/^(?:\*silence)?$/iu.test(sampleOf(region));
    if (sounds && !keep.loaded.has(region.number)) {
      expect(sampleOf(after[now]!)).toBe('*silence');
      opcodes.splice(opcodes.lastIndexOf('sample=*silence'), 1);
    }
    expect(opcodes).toEqual(facts(region).opcodes);
  }
  const stubs = after.slice(kept.length).map(({ number }) => number);
  const places = new Set(made.trimmed.places);
  expect(made.trimmed.places).toEqual([...places].sort((a, b) => a - b));
  expect([...places].filter((place) => place >= kept.length)).toEqual(stubs);
  const { program } = await readSfz(new MemoryFiles(made.bytes), root, () => '');
  const started = new Set(program.starts.map(({ zone }) => zone));
  for (const [now, { number }] of kept.entries()) {
    expect(places.has(now)).toBe(!keep.loaded.has(number) && !started.has(now));
  }
  for (const stub of stubs) expect(started).not.toContain(stub);
  for (const stub of after.slice(kept.length)) {
    const { opcodes } = facts(stub);
    expect(opcodes).toContain('hikey=-1');
    expect(opcodes).toContain('sample=*silence');
  }
  if (kept.length === before.length && [...keep.silent].every((one) => keep.loaded.has(one))) {
    for (const [path, bytes] of Object.entries(made.bytes)) {
      const given = contents[path]!;
      const original = typeof given === 'string' ? new TextEncoder().encode(given) : given;
      expect(Buffer.from(bytes).equals(Buffer.from(original))).toBe(true);
    }
  }
  return made;
};
