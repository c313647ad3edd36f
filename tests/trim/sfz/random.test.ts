import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readDocument } from '../../../src/instruments/sfz/text/read-document.ts';
import { randomSfz } from '../../oracle/sfz-random.ts';
import { checkAgainstReader } from './against-reader.ts';
import { randomLayout } from './random-text.ts';
import { keepSet } from './trimming.ts';

const instruments = randomSfz().chain((data) =>
  randomLayout(data).map((files) => ({ data, files })),
);

/** For each region by turns: 0 loaded, 1 silent, else gone. */
const choices = fc.array(fc.nat({ max: 3 }), { minLength: 1, maxLength: 12 });

const headersIn = async (files: Readonly<Record<string, string | Uint8Array>>) =>
  (await readDocument(new MemoryFiles(files), 'kit.sfz')).headers;

const regionsIn = async (files: Readonly<Record<string, string>>): Promise<number> =>
  (await headersIn(files)).filter(({ name }) => name === 'region').length;

const numbers = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i);

const numRuns = Number(process.env['RUNS'] ?? 200);

test('the layouts hold what was written', async () => {
  const seen = { include: 0, twice: 0, define: 0 };
  await fc.assert(
    fc.asyncProperty(instruments, async ({ data, files }) => {
      const names = Object.keys(files);
      if (names.some((name) => name.startsWith('part'))) seen.include += 1;
      if (Object.values(files).some((text) => text.includes('#define $v'))) seen.define += 1;
      if (names.some((name) => name.startsWith('twice'))) seen.twice += 1;
      else {
        const written = [
          ...(data.control === undefined ? [] : [{ name: 'control', opcodes: data.control }]),
          ...data.headers,
        ];
        const read = await headersIn(files);
        expect(
          read.map(({ name, opcodes }) => [name, opcodes.map((one) => [one.name, one.value])]),
        ).toEqual(written.map(({ name, opcodes }) => [name, opcodes]));
      }
    }),
    { numRuns: 120 },
  );
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(30);
});

test('the regions that stay are the same ones, and the others are gone', async () => {
  const seen = { stubs: 0, copies: 0 };
  await fc.assert(
    fc.asyncProperty(instruments, choices, async ({ files }, choice) => {
      const all = numbers(await regionsIn(files));
      const chosen = (wanted: number): readonly number[] =>
        all.filter((i) => choice[i % choice.length] === wanted);
      const { trimmed, texts } = await checkAgainstReader(files, keepSet(chosen(0), chosen(1)));
      if (trimmed.places.length > 0) seen.stubs += 1;
      if (Object.keys(texts).some((path) => !(path in files))) seen.copies += 1;
    }),
    { numRuns },
  );
  expect(seen.stubs).toBeGreaterThan(numRuns / 10);
  expect(seen.copies).toBeGreaterThan(numRuns / 40);
});

test('with all regions kept every byte is', async () => {
  await fc.assert(
    fc.asyncProperty(instruments, async ({ files }) => {
      const { texts } = await checkAgainstReader(files, keepSet(numbers(await regionsIn(files))));
      expect(texts).toEqual(files);
    }),
    { numRuns },
  );
});

test('trimmed again by the same choice, nothing more goes', async () => {
  await fc.assert(
    fc.asyncProperty(instruments, choices, async ({ files }, choice) => {
      const all = numbers(await regionsIn(files));
      const keep = keepSet(all.filter((i) => choice[i % choice.length] === 0));
      const { trimmed, texts } = await checkAgainstReader(files, keep);
      const stay = [...trimmed.zones.values(), ...trimmed.places];
      expect((await checkAgainstReader(texts, keepSet(stay))).texts).toEqual(texts);
    }),
    { numRuns: numRuns / 4 },
  );
});
