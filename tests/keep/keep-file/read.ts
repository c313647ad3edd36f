import { expect } from 'vitest';
import { readKeepFile } from '../../../src/keep/keep-file/read-keep-file.ts';
import { InputError } from '../../../src/terms/errors.ts';
import type { Finding } from '../../../src/terms/finding.ts';
import { bytesOf, type Json } from './places.ts';

/** What stops the reading of a keep file, all of it; null: it is accepted. Nothing else may be thrown. */
export const refusal = (bytes: Uint8Array): readonly Finding[] | null => {
  try {
    readKeepFile(bytes, 'keep.json');
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    const { finding, others } = error as InputError;
    for (const one of [finding, ...others]) {
      expect(one.file).toBe('keep.json');
      expect(one.severity).toBe('error');
      expect(one.code).toMatch(/^keep-file-/u);
    }
    return [finding, ...others];
  }
};

export const refusalOf = (value: Json): readonly Finding[] | null => refusal(bytesOf(value));
