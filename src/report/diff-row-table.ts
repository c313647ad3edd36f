import type { DiffInstrument } from '../keep/compare/diff.ts';
import type { Range } from '../terms/range.ts';
import { fixed, keys, name, several, shownName, type Cell } from './cell.ts';
import type { DiffRow } from './diff-rows.ts';
import { formatCount } from './format.ts';
import { nounsOf } from './instrument-nouns.ts';
import type { Look } from './look.ts';
import { layOut, notShown, type Column } from './table.ts';

/** A column with what it shows of a row; left out where no row has anything to show. */
interface RowColumn {
  readonly column: Column;
  readonly isNeeded: boolean;
  readonly cell: (row: DiffRow) => Cell;
}

/** What to load and to unload of an instrument, a row for each articulation and layer. */
export const diffRowTable = (
  instrument: DiffInstrument,
  rows: readonly DiffRow[],
  look: Look,
): readonly string[] => {
  const columns = columnsOf(instrument, rows, look).filter(({ isNeeded }) => isNeeded);
  const { text, leftOut } = layOut(
    columns.map(({ column }) => column),
    rows.map((row) => columns.map(({ cell }) => cell(row))),
    look,
  );
  return [text, ...notShown(leftOut, look)];
};

const columnsOf = (
  instrument: DiffInstrument,
  rows: readonly DiffRow[],
  look: Look,
): readonly RowColumn[] => {
  const { colors } = look;
  const nouns = nounsOf(instrument);
  const hasKeys = rows.some((row) => row.keys !== null);
  return [
    {
      column: { title: ['Do'], align: 'left' },
      isNeeded: true,
      cell: ({ action }) => fixed(action, action === 'load' ? colors.green : colors.yellow),
    },
    {
      column: { title: [nouns.title], align: 'left', min: 10 },
      isNeeded: true,
      cell: ({ articulations }) => name(articulations.join(', '), look),
    },
    {
      column: { title: ['Keys'], align: 'left', min: 8 },
      isNeeded: hasKeys,
      cell: (row) => keys(row.keys ?? [], look),
    },
    {
      column: { title: ['Layer'], align: 'left', min: 8, leaveOut: 1 },
      isNeeded: rows.some((row) => layerItems(row).length > 0),
      cell: layer,
    },
    {
      column: { title: ['Which'], align: 'left', min: 8, ...(hasKeys ? { leaveOut: 3 } : {}) },
      isNeeded: rows.some((row) => row.keys === null),
      cell: ({ zones }) =>
        names(
          zones.map(({ zone, key, samples }) => key ?? samples[0] ?? `zone ${String(zone)}`),
          { one: 'zone', many: 'zones' },
          look,
        ),
    },
    {
      column: { title: ['Zones'], align: 'right', leaveOut: 2 },
      isNeeded: true,
      cell: ({ zones }) => fixed(formatCount(zones.length)),
    },
    {
      column: { title: ['In copies'], align: 'left', min: 8, leaveOut: 0 },
      isNeeded: rows.some(({ copies }) => copies.some((copy) => copy !== null)),
      cell: ({ copies }) =>
        names(
          copies.map((copy) => copy ?? 'one that no cue drives'),
          { one: 'copy', many: 'copies' },
          look,
        ),
    },
  ];
};

/** More names than this in a cell are only counted where the width is not limited. */
const mostNames = 12;

const names = (
  list: readonly string[],
  { one, many }: { readonly one: string; readonly many: string },
  look: Look,
): Cell => {
  const cellOf = (texts: readonly string[]): Cell =>
    several({ items: texts.map((text) => ({ text, short: text })), one, many });
  const all = list.map((text) => shownName(text, look));
  if (look.details === true || all.length <= mostNames) return cellOf(all);
  const rest = `${formatCount(all.length - mostNames)} more`;
  return { ...cellOf(all), whole: cellOf([...all.slice(0, mostNames), rest]).whole };
};

const span = ([lo, hi]: Range): string => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`);

/** What tells a layer from the others: nothing where there is only one. */
const layerItems = ({ layer: own }: DiffRow): readonly string[] => {
  if (own === null) return [];
  const { velocities, controllers } = own;
  const isWhole = velocities === null || (velocities[0] <= 1 && velocities[1] === 127);
  return [
    ...(isWhole ? [] : [`velocity ${span(velocities)}`]),
    ...controllers.map(({ number, range }) => `CC${String(number)} ${span(range)}`),
  ];
};

const layer = (row: DiffRow): Cell => {
  const items = layerItems(row);
  if (items.length === 0) return fixed('all');
  return several({
    items: items.map((text) => ({ text, short: text.replace('velocity ', 'v') })),
    one: 'condition',
    many: 'conditions',
  });
};
