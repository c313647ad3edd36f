import type { Place } from '../../terms/finding.ts';

/** A text, or why the bytes are none that this program reads. */
export type Decoded =
  | { readonly text: string }
  | { readonly problem: 'utf-16' | 'unknown' | 'control'; readonly at: Place };

/** What YAML does not allow in a file (YAML 1.2.2, section 5.1, c-printable), but for U+FEFF. */
const forbidden = /[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff]/u;

const placeOf = (text: string, index: number): Place => {
  const lines = text.slice(0, index).split(/\r\n|\r|\n/u);
  return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
};

/** Reads UTF-8, with or without a byte order mark. */
export const decode = (bytes: Uint8Array): Decoded => {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return { problem: 'utf-16', at: { line: 1, column: 1 } };
  }
  const text = new TextDecoder('utf-8').decode(bytes);
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // Where the bytes are no UTF-8 the lenient decoder puts U+FFFD.
    return { problem: 'unknown', at: placeOf(text, text.indexOf('\ufffd')) };
  }
  const control = forbidden.exec(text);
  return control === null ? { text } : { problem: 'control', at: placeOf(text, control.index) };
};
