import { fold } from './fold.ts';

/** Characters of a word that are looked at, so that a long one can't take long. */
const longest = 64;

const letters = (text: string): readonly string[] =>
  // Cut before folding as well: four characters for each one that is looked at are plenty.
  [...fold(text.slice(0, 4 * longest))].slice(0, longest);

/**
 * Edits from one word to the other: letters put in, left out, replaced, or two neighbours swapped,
 * no place edited twice ("optimal string alignment").
 */
const edits = (a: readonly string[], b: readonly string[]): number => {
  let before: readonly number[] = [];
  let above: readonly number[] = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const differs = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(row[j - 1]! + 1, above[j]! + 1, above[j - 1]! + differs);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, before[j - 2]! + 1);
      }
      row.push(least);
    }
    before = above;
    above = row;
  }
  return above[b.length]!;
};

/**
 * What was most likely meant by a word that is not known: the candidate with the fewest edits
 * between the folded words, the first of several; null when none is near. Near is one edit, or one
 * for every three letters of the word.
 *
 * @example nearest('artcluation', ['articulation', 'track']) // 'articulation'
 */
export const nearest = (word: string, candidates: Iterable<string>): string | null => {
  const wanted = letters(word);
  if (wanted.length === 0) return null;
  let allowed = Math.max(1, Math.floor(wanted.length / 3));
  let best: string | null = null;
  for (const candidate of candidates) {
    const offered = letters(candidate);
    if (offered.length === 0 || Math.abs(offered.length - wanted.length) > allowed) continue;
    const distance = edits(wanted, offered);
    if (distance > allowed) continue;
    best = candidate;
    // From here on only a nearer one will do.
    allowed = distance - 1;
    if (allowed < 0) break;
  }
  return best;
};
