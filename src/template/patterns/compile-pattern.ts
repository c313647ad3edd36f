import { fold } from '../../notation/fold.ts';
import { foldPiece } from './folded-name.ts';
import type { Pattern } from './pattern.ts';
import { lengthProblem, scanPattern, type PatternProblem } from './scan-pattern.ts';

export type { PatternProblem } from './scan-pattern.ts';

/**
 * A pattern for names. `*` and `{name}` stand for any run of characters, also none; the rest must be
 * there as it is, but for accents, case and runs of white space. Between two wildcards must be
 * something, or nobody could say where one ends. At most 500 characters.
 *
 * Names of captures are folded too: `{Art}` and `{art}` are one.
 *
 * @example compilePattern('Vc {art}') // { text: 'Vc {art}', pieces: ['vc ', ''], captures: ['art'] }
 */
export const compilePattern = (text: string): Pattern | PatternProblem => {
  const tokens = lengthProblem(text) ?? scanPattern(text, fold);
  if ('problem' in tokens) return tokens;
  const pieces: string[] = [''];
  const captures: (string | null)[] = [];
  for (const token of tokens) {
    if (token.kind === 'text') {
      pieces[pieces.length - 1] = foldPiece(token.text);
      continue;
    }
    const { column } = token;
    // A piece of marks alone folds to nothing, so the pieces are looked at, not the tokens.
    if (captures.length > 0 && pieces.at(-1) === '') return { problem: 'wildcards-touch', column };
    const name = token.kind === 'capture' ? token.name : null;
    if (name !== null && captures.includes(name)) return { problem: 'capture-twice', column };
    captures.push(name);
    pieces.push('');
  }
  // A name has no blanks at its ends.
  pieces[0] = pieces[0]!.trimStart();
  pieces[pieces.length - 1] = pieces.at(-1)!.trimEnd();
  return { text, pieces, captures };
};

/** Names of the captures of a pattern. */
export const capturesOf = ({ captures }: Pattern): readonly string[] =>
  captures.filter((name) => name !== null);
