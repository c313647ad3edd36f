import type { CellState, KeyMapRow } from '../keep/key-map/key-map.ts';
import type { Range } from '../terms/range.ts';
import type { Look } from './look.ts';

/** What a place of a map shows: a state, zones of which no plan says anything, or nothing. */
export type Shown = CellState | 'there' | 'nothing';

/**
 * One character each, told apart by their shape alone: dark what stays for sure, a question mark what
 * may, light what nobody asked for.
 */
const glyphs = {
  kept: { plain: '█', ascii: '#' },
  doubtful: { plain: '?', ascii: '?' },
  spare: { plain: '░', ascii: '+' },
  dropped: { plain: '·', ascii: '.' },
  there: { plain: '█', ascii: '#' },
  nothing: { plain: ' ', ascii: ' ' },
} as const satisfies Readonly<Record<Shown, { plain: string; ascii: string }>>;

/** What each is called, the first that fits a place first. */
export const glyphWords: Readonly<Record<Exclude<Shown, 'nothing'>, string>> = {
  kept: 'stays: notes reach it',
  doubtful: 'stays: reached only if a doubt holds',
  spare: 'stays without a note',
  dropped: 'goes',
  there: 'a zone starts here',
};

const turn = Object.keys(glyphWords) as (keyof typeof glyphWords)[];

export const glyphOf = (shown: Shown, { ascii }: Look): string =>
  ascii ? glyphs[shown].ascii : glyphs[shown].plain;

/** The colour repeats what the shape says. */
export const paintOf = (shown: Shown, { colors }: Look): ((text: string) => string) => {
  if (shown === 'doubtful') return colors.yellow;
  if (shown === 'spare') return colors.cyan;
  return shown === 'dropped' ? colors.dim : (text) => text;
};

/** What a row has at each place from key `from` on, `step` keys in one: the first that fits any of them. */
export const placesOf = (
  { cells }: KeyMapRow,
  [from, to]: Range,
  step: number,
): readonly Shown[] => {
  const places: Shown[] = new Array<Shown>(Math.floor((to - from) / step) + 1).fill('nothing');
  for (const { keys, state } of cells) {
    const shown = state ?? 'there';
    const last = Math.floor((Math.min(keys[1], to) - from) / step);
    for (let at = Math.floor((Math.max(keys[0], from) - from) / step); at <= last; at++) {
      const before = places[at];
      if (before === undefined || before === 'nothing' || rank(shown) < rank(before)) {
        places[at] = shown;
      }
    }
  }
  return places;
};

const rank = (shown: Shown): number => (shown === 'nothing' ? turn.length : turn.indexOf(shown));

/** Those that a map shows, in the order in which they count. */
export const usedOf = (rows: readonly (readonly Shown[])[]): readonly (keyof typeof glyphWords)[] =>
  turn.filter((one) => rows.some((places) => places.includes(one)));
