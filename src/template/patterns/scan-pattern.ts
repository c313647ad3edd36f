/** The most characters of a pattern: names are shorter, and a slip of the mouse is longer. */
const longestPattern = 500;

/** What is wrong with a pattern and where. */
export interface PatternProblem {
  readonly problem:
    | 'brace-open'
    | 'brace-close'
    | 'capture-empty'
    | 'capture-twice'
    | 'wildcards-touch'
    | 'too-long';
  /** Counted from 1, in characters of the text. */
  readonly column: number;
}

/** A stretch of a pattern as written; columns count from 1, in characters. */
export type PatternToken =
  | { readonly kind: 'text'; readonly text: string }
  /** `*` */
  | { readonly kind: 'any'; readonly column: number }
  /** `{name}`; the name folded. */
  | { readonly kind: 'capture'; readonly name: string; readonly column: number };

/** What a backslash makes plain text of. A backslash before anything else is a backslash. */
const special = new Set(['*', '{', '}', '\\']);

/** The problem of a text with more than 500 characters; null for a shorter one. */
export const lengthProblem = (text: string): PatternProblem | null =>
  // Code units first, so that taking a giant text apart is no work either.
  text.length > 2 * longestPattern || [...text].length > longestPattern
    ? { problem: 'too-long', column: longestPattern + 1 }
    : null;

/**
 * Takes a text with `*` and `{captures}` apart. `\*`, `\{`, `\}` and `\\` stand for the character
 * itself. Neighbouring tokens are never both text. Linear time.
 *
 * @param foldName how the names of captures are made comparable
 */
export const scanPattern = (
  text: string,
  foldName: (name: string) => string,
): readonly PatternToken[] | PatternProblem => {
  const letters = [...text];
  const tokens: PatternToken[] = [];
  let plain = '';
  const endText = (): void => {
    if (plain !== '') tokens.push({ kind: 'text', text: plain });
    plain = '';
  };
  for (let at = 0; at < letters.length; at += 1) {
    const letter = letters[at]!;
    const column = at + 1;
    if (letter === '\\' && special.has(letters[at + 1] ?? '')) {
      at += 1;
      plain += letters[at]!;
    } else if (letter === '*') {
      endText();
      tokens.push({ kind: 'any', column });
    } else if (letter === '}') {
      return { problem: 'brace-close', column };
    } else if (letter === '{') {
      let end = at + 1;
      while (end < letters.length && letters[end] !== '}' && letters[end] !== '{') end += 1;
      if (letters[end] !== '}') return { problem: 'brace-open', column };
      const name = foldName(letters.slice(at + 1, end).join(''));
      if (name === '') return { problem: 'capture-empty', column };
      endText();
      tokens.push({ kind: 'capture', name, column });
      at = end;
    } else plain += letter;
  }
  endText();
  return tokens;
};
