import { fold } from '../../notation/fold.ts';
import { scanPattern, type PatternProblem } from './scan-pattern.ts';

/**
 * Names of the captures that a text with `{captures}` mentions. The text follows the rules of patterns,
 * but that `*` is nothing special, and that captures may touch and come back.
 */
export const mentionedCaptures = (text: string): readonly string[] | PatternProblem => {
  const tokens = scanPattern(text, fold);
  if ('problem' in tokens) return tokens;
  const names = tokens.flatMap((token) => (token.kind === 'capture' ? [token.name] : []));
  return [...new Set(names)];
};

/**
 * Puts what was captured in its place; what was not is left out.
 *
 * @param text one that {@link mentionedCaptures} can read
 * @example fillCaptures('{art} con sord', new Map([['art', 'leg']])) // 'leg con sord'
 */
export const fillCaptures = (text: string, captures: ReadonlyMap<string, string>): string => {
  const tokens = scanPattern(text, fold);
  if ('problem' in tokens) return text;
  return tokens
    .map((token) => {
      if (token.kind === 'text') return token.text;
      return token.kind === 'any' ? '*' : (captures.get(token.name) ?? '');
    })
    .join('')
    .trim();
};
