import { finding, type Finding, type Place } from '../../terms/finding.ts';
import type { CsvRow } from '../../notation/csv.ts';
import { fold } from '../../notation/fold.ts';
import { parseList } from '../../notation/list.ts';
import { parseNumber } from '../../notation/number.ts';
import { tidy } from '../../notation/tidy.ts';
import type { RouteFields } from './route-fields.ts';
import { shortened } from '../../notation/document/shortened.ts';
import type { TrackColumn, TrackHeadings } from './track-columns.ts';

const controller = /^(?:cc ?)?(\d{1,3}) ?: ?(\d{1,3})$/iu;

/** `11:1 | 2:11`: the cue's 11 arrives as 1. Null for what can't be read, and for a number given twice. */
const parseControllerMap = (text: string): ReadonlyMap<number, number> | null => {
  const pairs = parseList(text, '|', (item): readonly [number, number] | null => {
    const [, from, to] = controller.exec(tidy(item)) ?? [];
    return from === undefined || to === undefined ? null : [Number(from), Number(to)];
  });
  if (pairs === null) return null;
  const controllers = new Map(pairs);
  return controllers.size === pairs.length ? controllers : null;
};

const parseInstruments = (text: string): readonly string[] | null =>
  parseList(text, '|', (item) => (item.trim() === '' ? null : item.trim()));

const yes = new Set(['yes', 'true', 'x', '1']);
const no = new Set(['no', 'false', '0']);

const parseYesNo = (text: string): boolean | null =>
  yes.has(fold(text)) ? true : no.has(fold(text)) ? false : null;

/** The column of a field, where its name is not that of the field. */
const columnNames: Partial<Record<keyof RouteFields, TrackColumn>> = {
  tracks: 'track',
  joinWord: 'join',
  instruments: 'instrument',
};

/** A row of a table of tracks, read cell by cell. */
export interface TrackRow {
  readonly fields: RouteFields;
  readonly problems: readonly Finding[];
  /** Where a field stands; the row where it has no cell. */
  readonly placeOf: (field: keyof RouteFields | null) => Place;
}

/** Reads the cells of a row: every one that can't be read is a problem of its own. */
export const readTrackRow = (
  { cells, line }: CsvRow,
  { places, headed }: TrackHeadings,
  decimalComma: boolean,
  file: string,
): TrackRow => {
  const problems: Finding[] = [];
  const cellOf = (column: TrackColumn) => cells[places.get(column) ?? -1];
  const textOf = (column: TrackColumn): string | null => {
    const text = cellOf(column)?.text.trim() ?? '';
    return text === '' ? null : text;
  };
  const read = <Value>(
    column: TrackColumn,
    empty: Value,
    expects: 'number' | 'controllers' | 'yes-no' | 'instruments',
    parse: (text: string) => Value | null,
  ): Value => {
    const text = textOf(column);
    if (text === null) return empty;
    const value = parse(text);
    if (value !== null) return value;
    const args = { column, cell: shortened(text), expects };
    problems.push(finding('error', 'tracks-cell', file, args, placeOf(column)));
    return empty;
  };
  const placeOf = (field: keyof RouteFields | TrackColumn | null): Place => {
    const column = field === null ? 'track' : (columnNames[field as keyof RouteFields] ?? field);
    const cell = cellOf(column as TrackColumn);
    return { line: cell?.line ?? line, column: cell?.column ?? 1 };
  };
  const number = (text: string): number | null => parseNumber(text, decimalComma);
  const track = textOf('track');
  const fields: RouteFields = {
    tracks: track === null ? null : [track],
    join: null,
    joinWord: textOf('join'),
    cue: textOf('cue'),
    port: read('port', null, 'number', number),
    channel: read('channel', null, 'number', number),
    instruments: read<readonly string[]>('instrument', [], 'instruments', parseInstruments),
    articulation: textOf('articulation'),
    transpose: read('transpose', 0, 'number', number),
    velocity: read('velocity', 1, 'number', number),
    controllers: read<ReadonlyMap<number, number>>(
      'controllers',
      new Map(),
      'controllers',
      parseControllerMap,
    ),
    printed: read('printed', false, 'yes-no', parseYesNo),
    ignore: read('ignore', false, 'yes-no', parseYesNo),
  };
  const extra = cells.find(({ text }, index) => text !== '' && !headed.has(index));
  if (extra !== undefined) {
    const at = { line: extra.line, column: extra.column };
    problems.push(finding('error', 'tracks-cell-extra', file, { cell: shortened(extra.text) }, at));
  }
  return { fields, problems, placeOf };
};
