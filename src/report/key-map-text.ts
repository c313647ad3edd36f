import type { KeyMap, KeyMapArticulation, KeyMapRow } from '../keep/key-map/key-map.ts';
import { keyLabel } from '../terms/key.ts';
import { shownName } from './cell.ts';
import { plural } from './format.ts';
import { glyphOf, glyphWords, paintOf, placesOf, usedOf, type Shown } from './key-glyphs.ts';
import { fullPlaces, keyRuler, keysPerPlace } from './key-ruler.ts';
import { dots, type Look } from './look.ts';
import { paragraph, type Part } from './paragraph.ts';
import { cutMiddle, displayWidth } from './text-width.ts';
import { verbatim } from './verbatim.ts';
import { layerWords } from './worklist-words.ts';

/** Larger maps come only where they are asked for. */
const mostRows = 24;

/** Columns that names get at the most, where the width is known. */
const widestNames = 28;
const narrowestNames = 12;

/** Columns between names and keys. */
const gap = 2;

const indented = '  ';

interface MapOptions {
  /** What the map is called. */
  readonly title: string;
  /** A key that was asked about. */
  readonly marked?: number | null;
}

/** How many rows a map has. */
const rowCount = ({ articulations }: KeyMap): number =>
  articulations.reduce((sum, { rows }) => sum + rows.length, 0);

/**
 * A map of keys and layers in text: keys from left to right under a ruler of octaves, a line for each
 * layer, a character for each key or for as few keys as fit. Of a large map only how to see it, unless
 * details are asked for. Empty where no key starts anything.
 */
export const keyMapText = (
  map: KeyMap,
  look: Look,
  { title, marked = null }: MapOptions,
): readonly string[] => {
  const count = rowCount(map);
  if (map.keys === null || count === 0) return [];
  if (look.details !== true && count > mostRows) {
    return paragraph([`${title}: ${plural(count, 'row')}, with --verbose.`], look.width);
  }
  return drawing(map, map.keys, look, { title, marked });
};

const drawing = (
  map: KeyMap,
  keys: readonly [number, number],
  look: Look,
  { title, marked }: Required<MapOptions>,
): readonly string[] => {
  const { colors, width } = look;
  const entries = map.articulations.flatMap((one) => linesOf(one, look));
  const widest = Math.max(...entries.map(({ label }) => displayWidth(label)));
  const names = width === null ? widest : Math.min(widest, namesIn(width, keys));
  const room = width === null ? null : Math.max(width - names - gap, 1);
  const step = keysPerPlace(keys, room);
  const whole = fullPlaces(keys, step);
  const blank = ' '.repeat(names + gap);
  const [ruler, ticks] = keyRuler(whole, step, marked, look);
  const drawn = entries.map(({ label, row }) => ({
    label,
    places: row === null ? [] : placesOf(row, whole, step),
  }));
  return [
    colors.bold(title),
    '',
    ...verbatim(
      [
        `${blank}${ruler}`,
        `${blank}${ticks}`,
        ...drawn.map(({ label, places }) => {
          const shown = cutMiddle(label, names, dots(look));
          const padded = shown + ' '.repeat(names - displayWidth(shown) + gap);
          return places.length === 0 ? shown : (padded + painted(places, look)).trimEnd();
        }),
      ],
      look,
    ),
    ...legend(
      drawn.map(({ places }) => places),
      step,
      marked,
      look,
    ),
  ];
};

/** Names leave the keys as much room as two keys in a place take, as far as there is any. */
const namesIn = (width: number, keys: readonly [number, number]): number => {
  const [from, to] = fullPlaces(keys, 2);
  const left = width - gap - (to - from + 1) / 2;
  return Math.min(Math.max(left, narrowestNames), Math.max(widestNames, left - 20));
};

interface Line {
  readonly label: string;
  /** null: the name of an articulation, whose rows follow. */
  readonly row: KeyMapRow | null;
}

/** An articulation of one row that always sounds is a line; of others the rows follow its name. */
const linesOf = ({ name, rows }: KeyMapArticulation, look: Look): readonly Line[] => {
  const label = shownName(name, look);
  const [first] = rows;
  if (first !== undefined && rows.length === 1 && rowWords(first) === everyNote) {
    return [{ label, row: first }];
  }
  return [
    { label, row: null },
    ...rows.map((row) => ({ label: `${indented}${rowWords(row)}`, row })),
  ];
};

const everyNote = 'every note';

/** @example rowWords(row) // 'velocity 96-127 and CC1 64-127' */
const rowWords = (row: KeyMapRow): string => {
  const layer = layerWords(row);
  if (row.event === 'note') return layer === '' ? everyNote : layer;
  const event = row.event === 'release' ? 'on release' : 'by a message';
  return layer === '' ? event : `${event}, ${layer}`;
};

/** Runs of one state are painted at once. */
const painted = (places: readonly Shown[], look: Look): string => {
  let text = '';
  for (let at = 0; at < places.length;) {
    const state = places[at]!;
    let end = at;
    while (places[end] === state) end++;
    const run = glyphOf(state, look).repeat(end - at);
    text += state === 'nothing' ? run : paintOf(state, look)(run);
    at = end;
  }
  // A blank end is no part of the line.
  return text;
};

const legend = (
  rows: readonly (readonly Shown[])[],
  step: number,
  marked: number | null,
  look: Look,
): readonly string[] => {
  const used = usedOf(rows);
  const parts: Part[] = used.flatMap((one, i): Part[] => [
    { text: glyphOf(one, look), paint: paintOf(one, look) },
    `${glyphWords[one]}${i < used.length - 1 ? ',' : '.'}`,
  ]);
  const point = look.ascii ? 'v' : '▾';
  const each =
    step === 1
      ? 'A character is one key.'
      : `A character is ${String(step)} keys, and shows the first of these that any of them is.`;
  return [
    '',
    ...paragraph(parts, look.width),
    ...paragraph(
      [each, ...(marked === null ? [] : [`${point} is ${keyLabel(marked, look.middleC)}.`])],
      look.width,
    ),
  ];
};
