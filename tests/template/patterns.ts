import { compilePattern } from '../../src/template/patterns/compile-pattern.ts';
import type { Pattern } from '../../src/template/patterns/pattern.ts';

/** A pattern that is known to be one. */
export const patternOf = (text: string): Pattern => {
  const pattern = compilePattern(text);
  if ('problem' in pattern) throw new Error(`${pattern.problem} in ${text}`);
  return pattern;
};
