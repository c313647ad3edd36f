import { fold } from '../../notation/fold.ts';
import { nearest } from '../../notation/nearest.ts';
import type { CsvRow } from '../../notation/csv.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { shown } from './cell-text.ts';
import type { Faults } from './faults.ts';

/** The columns of a zone table (design, section 8). */
export const columnNames = [
  'articulation',
  'switch',
  'keys',
  'velocities',
  'controllers',
  'sampled-key',
  'sample',
  'frames',
  'seconds',
  'bytes',
  'rate',
  'bits',
  'channels',
  'round-robin',
  'release',
  'microphone',
  'key',
] as const;

export type ColumnName = (typeof columnNames)[number];

/** Where each column of a table stands among its cells, from 0. */
export type Columns = ReadonlyMap<ColumnName, number>;

/** The columns that say how large a sample is; a row fills in one of them. */
export const sizeColumns = ['frames', 'seconds', 'bytes'] as const;

const anySize = 'bytes, frames or seconds';

/** Headings that people write for a column of another name (common practice). */
const otherNames: ReadonlyMap<string, ColumnName> = new Map([
  ['keyswitch', 'switch'],
  ['key-range', 'keys'],
  ['key-ranges', 'keys'],
  ['range', 'keys'],
  ['ranges', 'keys'],
  ['note-range', 'keys'],
  ['vel', 'velocities'],
  ['velocity', 'velocities'],
  ['velocity-range', 'velocities'],
  ['velocity-ranges', 'velocities'],
  ['cc', 'controllers'],
  ['root', 'sampled-key'],
  ['root-key', 'sampled-key'],
  ['file', 'sample'],
  ['size', 'bytes'],
  ['file-size', 'bytes'],
  ['memory', 'bytes'],
  ['length', 'seconds'],
  ['duration', 'seconds'],
  ['sample-rate', 'rate'],
  ['samplerate', 'rate'],
  ['bit-depth', 'bits'],
  ['bitdepth', 'bits'],
  ['rr', 'round-robin'],
  ['mic', 'microphone'],
  ['mics', 'microphone'],
  ['id', 'key'],
]);

/** More unknown headings than this are not compared with the known ones. */
const mostCompared = 100;

const mostNamed = 12;

/**
 * Finds the columns in the first row of a table. Spaces, `_` and `-` are the same in a heading, and
 * capitals and accents do not count. A column that is not known is left out, with a note, or with a
 * warning when its heading is nearly that of a column there is.
 *
 * Faults: `table-column-missing`, `table-column-twice`.
 */
export const readColumns = (
  path: string,
  heading: CsvRow,
  faults: Faults,
): { readonly columns: Columns; readonly findings: readonly Finding[] } => {
  const columns = new Map<ColumnName, number>();
  const unknown: { readonly text: string; readonly name: string; readonly cell: number }[] = [];
  heading.cells.forEach(({ text, line, column }, cell) => {
    const name = columnNameOf(text);
    if (!isKnown(name)) {
      if (name !== '') unknown.push({ text, name, cell });
    } else if (columns.has(name)) {
      faults.add('table-column-twice', { column: name }, { line, column });
    } else columns.set(name, cell);
  });
  const nears = unknown.map(({ name }, i) => (i < mostCompared ? nearColumn(name, columns) : null));
  const likely = (wanted: readonly ColumnName[]): string | null => {
    const index = nears.findIndex((near) => near !== null && wanted.includes(near));
    return index < 0 ? null : shown(unknown[index]!.text);
  };
  checkRequired(heading, columns, likely, faults);

  const findings: Finding[] = [];
  const others: string[] = [];
  unknown.forEach(({ text, cell }, i) => {
    const near = nears[i] ?? null;
    if (near === null) others.push(shown(text));
    else {
      const { line, column } = heading.cells[cell]!;
      const args = { column: shown(text), near };
      findings.push(finding('warning', 'table-column-near', path, args, { line, column }));
    }
  });
  if (others.length > 0) {
    const args = {
      columns: others.slice(0, mostNamed),
      more: Math.max(0, others.length - mostNamed),
    };
    findings.push(finding('note', 'table-columns-unknown', path, args, { line: heading.line }));
  }
  return { columns, findings };
};

const columnNameOf = (text: string): string =>
  // Folded first, so that a dash of any kind counts, and again for the spaces that come together.
  fold(fold(text).replace(/[_-]/gu, ' ')).replaceAll(' ', '-');

const isKnown = (name: string): name is ColumnName =>
  (columnNames as readonly string[]).includes(name);

/** A column that the table does not have yet and that `name` may stand for. */
const nearColumn = (name: string, columns: Columns): ColumnName | null => {
  const free = columnNames.filter((column) => !columns.has(column));
  const other = otherNames.get(name);
  if (other !== undefined && free.includes(other)) return other;
  return nearest(name, free) as ColumnName | null;
};

/** @param likely the heading there is that probably means one of some columns */
const checkRequired = (
  heading: CsvRow,
  columns: Columns,
  likely: (wanted: readonly ColumnName[]) => string | null,
  faults: Faults,
): void => {
  const present = heading.cells
    .map(({ text }) => shown(text))
    .filter((text) => text !== '')
    .slice(0, mostNamed);
  const at = { line: heading.line };
  if (!columns.has('keys')) {
    const args = { column: 'keys', present, likely: likely(['keys']), meant: 'keys' };
    faults.add('table-column-missing', args, at);
  }
  if (!sizeColumns.some((column) => columns.has(column))) {
    const meant = sizeColumns.find((column) => likely([column]) !== null);
    const args = {
      column: anySize,
      present,
      likely: meant === undefined ? null : likely([meant]),
      meant: meant ?? anySize,
    };
    faults.add('table-column-missing', args, at);
  }
};
