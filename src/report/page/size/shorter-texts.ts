import type { Overview } from '../../../overview/overview.ts';

/** Characters (code points) of a text; its digests are 64. The page shows 60 of a name. */
const most = 120;

/**
 * An overview whose names, places and words of findings have no more than 120 characters: longer ones
 * lose their middle. What was one name stays one wherever it stands, and two names stay two.
 */
export const shorterTexts = (overview: Overview): Overview => {
  const cut = new Map<string, string>();
  const taken = new Set<string>();
  const shorter = (text: string): string => {
    if (text.length <= most) return text;
    const known = cut.get(text);
    if (known !== undefined) return known;
    let made = withoutMiddle(text, most, '…');
    for (let i = 2; taken.has(made); i++) made = withoutMiddle(text, most, `…(${String(i)})…`);
    taken.add(made);
    cut.set(text, made);
    return made;
  };
  const changed = (value: unknown): unknown => {
    if (typeof value === 'string') return shorter(value);
    if (value === null || typeof value !== 'object') return value;
    if (Array.isArray(value)) return value.map(changed);
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, changed(one)]));
  };
  const made = changed(overview) as Overview;
  return cut.size === 0 ? overview : made;
};

/** Takes only the ends apart into characters: the middle may be megabytes. */
const withoutMiddle = (text: string, length: number, dots: string): string => {
  const ends = length - [...dots].length;
  const [first, last] = [Math.ceil(ends / 2), Math.floor(ends / 2)];
  const [start, end] = [[...text.slice(0, 2 * first)], [...text.slice(-2 * last)]];
  return `${start.slice(0, first).join('')}${dots}${end.slice(-last).join('')}`;
};
