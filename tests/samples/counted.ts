import { readSampleHeader } from '../../src/samples/read-header.ts';
import type { HeaderResult } from '../../src/samples/sample-header.ts';

/** A header, and what was read of the file for it. */
export interface Counted {
  readonly result: HeaderResult;
  readonly reads: readonly { readonly offset: number; readonly length: number }[];
}

/** Reads the header of a file in memory that claims `size` bytes; behind its bytes it holds zeros. */
export const countReads = async (file: Uint8Array, size = file.length): Promise<Counted> => {
  const reads: { offset: number; length: number }[] = [];
  const result = await readSampleHeader(size, (offset, length) => {
    reads.push({ offset, length });
    const bytes = new Uint8Array(Math.max(0, Math.min(length, size - offset)));
    bytes.set(file.subarray(offset, offset + length));
    return Promise.resolve(bytes);
  });
  return { result, reads };
};

export const headerOf = async (file: Uint8Array, size = file.length): Promise<HeaderResult> =>
  (await countReads(file, size)).result;
