import { Composer, YAMLParseError, type Document, type YAMLError } from 'yaml';
import type { Scan } from './scan.ts';

/** Errors of the YAML reader that are looked at; the first few decide, the rest follow from them. */
const most = 20;

class Enough extends Error {}

type ErrorSource = number | readonly number[] | { readonly offset: number };

const offsetOf = (source: ErrorSource): number =>
  typeof source === 'number' ? source : 'offset' in source ? source.offset : source[0]!;

/** The document that the tokens make, or null where they make none; and what is wrong with it. */
export interface Composed {
  readonly document: Document.Parsed | null;
  readonly errors: readonly YAMLError[];
}

/**
 * Makes nodes of tokens. Keys are not compared with each other, which would take the square of their
 * number; that is done later.
 */
export const compose = ({ tokens }: Scan): Composed => {
  const composer = new Composer({ uniqueKeys: false, prettyErrors: false, logLevel: 'silent' });
  const errors: YAMLError[] = [];
  // A broken file may hold an error a byte, and the composer would make each. This ends it early;
  // should a later version of the library not call it, files like that only take longer.
  Object.assign(composer, {
    onError: (source: ErrorSource, code: YAMLError['code'], message: string, isWarning = false) => {
      if (isWarning) return;
      const offset = offsetOf(source);
      errors.push(new YAMLParseError([offset, offset + 1], code, message));
      if (errors.length === most) throw new Enough();
    },
  });
  let document: Document.Parsed | null = null;
  try {
    for (const composed of composer.compose(tokens)) document ??= composed;
  } catch (error) {
    if (!(error instanceof Enough)) throw error;
  }
  // Errors of the tokens themselves do not pass by `onError`.
  const all = [...errors, ...(document?.errors ?? composer.streamInfo().errors)];
  return { document, errors: all.sort((a, b) => a.pos[0] - b.pos[0]) };
};
