import { shownName } from './cell.ts';
import { formatCount } from './format.ts';
import { dots, type Look } from './look.ts';
import { cutMiddle } from './text-width.ts';

/** More names than this are only counted, where nothing else is said. */
const mostNames = 8;

/** A name inside a sentence: at most half a line, so that what is said of it stays beside it. */
export const nameInText = (name: string, look: Look): string => {
  const whole = shownName(name, look);
  if (look.width === null) return whole;
  return cutMiddle(whole, Math.max(Math.floor(look.width / 2) - 4, 12), dots(look));
};

/** Names in a sentence: the first ones and how many more there are, or all where details are asked for. */
export const nameList = (names: readonly string[], look: Look, most = mostNames): string => {
  const shown = names
    .slice(0, look.details === true ? Infinity : most)
    .map((name) => nameInText(name, look));
  const rest = names.length - shown.length;
  return shown.join(', ') + (rest > 0 ? ` and ${formatCount(rest)} more` : '');
};
