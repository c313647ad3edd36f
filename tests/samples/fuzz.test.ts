import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isHeaderFault, type HeaderResult } from '../../src/samples/sample-header.ts';
import { countReads } from './counted.ts';
import { anySample } from './random-sample.ts';
import { ascii, join } from './writers.ts';

/** Bytes that the frames of a header need at least in a file; null where no bound is known. */
const leastBytes = (header: HeaderResult): number => {
  if (isHeaderFault(header)) return 0;
  const { format, frames, channels, width, widthAssumed } = header;
  if (format === 'flac') return (frames / 65535) * 10;
  if (format === 'ogg-vorbis') return frames / 4096;
  return widthAssumed ? (frames * channels) / 5 - 5 * 65535 : frames * channels * width;
};

const faultsOf = (result: HeaderResult, size: number): string[] => {
  const faults: string[] = [];
  const expectIt = (what: string, holds: boolean): void => {
    if (!holds) faults.push(`${what}: ${JSON.stringify(result)}`);
  };
  const numbers = JSON.stringify(result, (_, value: unknown) =>
    typeof value === 'number' && !Number.isFinite(value) ? 'not finite' : value,
  );
  expectIt('finite', !numbers.includes('not finite'));
  expectIt('printable', !/[\x00-\x1f\x7f-\uffff]/.test(numbers));
  if (isHeaderFault(result)) return faults;
  const { frames, channels, width, rate, loop } = result;
  expectIt('frames', Number.isSafeInteger(frames) && frames >= 1);
  expectIt('channels', Number.isInteger(channels) && channels >= 1 && channels <= 65535);
  expectIt('width', Number.isInteger(width) && width >= 1 && width <= 8);
  expectIt('rate', rate > 0 && rate < 2 ** 32);
  expectIt('loop', loop === null || (loop.start <= loop.end && loop.end < frames));
  expectIt('size', leastBytes(result) <= size);
  return faults;
};

const check = async (bytes: Uint8Array, size = bytes.length): Promise<void> => {
  const { result, reads } = await countReads(bytes, size);
  const faults = faultsOf(result, size);
  if (reads.length > 12) faults.push(`${reads.length} reads`);
  if (reads.some(({ length }) => length > 132_000)) faults.push('a large read');
  if (reads.some(({ offset, length }) => offset < 0 || offset + length > size)) {
    faults.push('a read outside the file');
  }
  expect(faults).toEqual([]);
};

describe('any bytes are a fault, or a header that holds together', () => {
  const begins = fc.constantFrom(
    '',
    'RIFF\x80\0\0\0WAVE',
    'RIFF\x80\0\0\0WAVEfmt \x10\0\0\0\x01\0\x01\0\x44\xac\0\0\0\0\0\0\x02\0\x10\0',
    'RF64\xff\xff\xff\xffWAVEds64\x40\0\0\0',
    'FORM\0\0\0\x80AIFF',
    'FORM\0\0\0\x80AIFCCOMM\0\0\0\x16\0\x01\0\0\0\x20\0\x10\x40\x0e\xac\x44\0\0\0\0\0\0',
    'fLaC',
    'fLaC\0\0\0\x22\x10\0\x10\0\0\0\0\0\0\0\x0a\xc4\x42\xf0',
    'ID3\x04\0\0\0\0\0\x04',
    'OggS\0\x02\0\0\0\0\0\0\0\0\x07\0\0\0\0\0\0\0\0\0\0\0\x01\x1e\x01vorbis\0\0\0\0',
  );
  const likely = fc.oneof(
    fc.nat(255),
    fc.nat(16),
    fc.constantFrom(...ascii('datfmspl SNDCOMRKITOgS'), 0x7f, 0x80, 0xff),
  );

  test('behind the beginnings of every format', async () => {
    await fc.assert(
      fc.asyncProperty(begins, fc.array(likely, { maxLength: 300 }), (start, rest) =>
        check(join(ascii(start), Uint8Array.from(rest))),
      ),
      { seed: 41, numRuns: 4000 },
    );
  });

  test('in files of any claimed size', async () => {
    await fc.assert(
      fc.asyncProperty(
        begins,
        fc.array(likely, { maxLength: 100 }),
        fc.maxSafeNat(),
        (start, rest, more) => {
          const bytes = join(ascii(start), Uint8Array.from(rest));
          return check(bytes, Math.min(bytes.length + more, Number.MAX_SAFE_INTEGER));
        },
      ),
      { seed: 42, numRuns: 400 },
    );
  });
});

describe('well-made files, changed', () => {
  const change = fc.tuple(
    fc.nat(),
    fc.constantFrom('set', 'ends', 'cut', 'drop', 'double'),
    fc.nat(255),
  );

  const changed = (file: Uint8Array, changes: readonly (readonly [number, string, number])[]) =>
    changes.reduce((bytes, [where, how, value]) => {
      // Most of a file is sound; headers come first.
      const at = where % Math.max(1, Math.min(bytes.length, where % 3 === 0 ? 6000 : 120));
      const copy = bytes.slice();
      switch (how) {
        case 'set':
          copy[at] = value;
          return copy;
        case 'ends':
          return copy.fill(value < 128 ? 0xff : 0, at, at + 4);
        case 'cut':
          return copy.subarray(0, where % Math.max(1, bytes.length));
        case 'drop':
          return join(bytes.subarray(0, at), bytes.subarray(at + 1 + (value % 8)));
        default:
          return join(bytes.subarray(0, at + 40), bytes.subarray(at));
      }
    }, file);

  test('a few changes', async () => {
    await fc.assert(
      fc.asyncProperty(
        anySample,
        fc.array(change, { minLength: 1, maxLength: 5 }),
        (sample, changes) => check(changed(sample.file, changes)),
      ),
      { seed: 43, numRuns: 3000 },
    );
  });

  test('cut at every byte of the first hundred', async () => {
    await fc.assert(
      fc.asyncProperty(anySample, async ({ file }) => {
        for (let length = 0; length < Math.min(file.length, 100); length += 1) {
          await check(file.subarray(0, length));
        }
      }),
      { seed: 44, numRuns: 40 },
    );
  });
});

describe('files made to take long', () => {
  const repeated = (begin: string, unit: Uint8Array, count: number) =>
    join(
      ascii(begin),
      new Uint8Array(unit.length * count).map((_, i) => unit[i % unit.length]!),
    );

  test.each([
    ['empty WAVE chunks', repeated('RIFF\0\0\0\x7fWAVE', ascii('abcd\0\0\0\0'), 200_000)],
    ['empty AIFF chunks', repeated('FORM\x7f\0\0\0AIFF', ascii('abcd\0\0\0\0'), 200_000)],
    [
      'empty FLAC blocks',
      repeated(`fLaC\0\0\0\x22${'\x10'.repeat(34)}`, ascii('\x01\0\0\0'), 400_000),
    ],
    [
      'pages that never end',
      repeated(
        `OggS\0\x02${'\0'.repeat(20)}\x01\x1e\x01vorbis\0\0\0\0\x02\x44\xac\0\0${'\0'.repeat(12)}\xb8\x01`,
        ascii(`OggS\0\0${'\0'.repeat(20)}\xff`),
        10_000,
      ),
    ],
    [
      'markers',
      repeated('FORM\x7f\0\0\0AIFFMARK\x70\0\0\0\xff\xff', ascii('\0\x01\0\0\0\0\0\0'), 200_000),
    ],
  ])('%s', async (_, file) => {
    await check(file);
  });
});
