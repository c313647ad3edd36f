import { finding, type Finding } from '../../terms/finding.ts';
import type { CsvCell, CsvRow } from '../../notation/csv.ts';
import { fold } from '../../notation/fold.ts';
import { nearest } from '../../notation/nearest.ts';
import { shortened } from '../../notation/document/shortened.ts';

/** The columns of a table of tracks. */
export const trackColumns = [
  'track',
  'cue',
  'port',
  'channel',
  'instrument',
  'articulation',
  'join',
  'transpose',
  'velocity',
  'controllers',
  'printed',
  'ignore',
] as const;

export type TrackColumn = (typeof trackColumns)[number];

/** Where the columns are: indexes into the cells of a row. */
export interface TrackHeadings {
  readonly places: ReadonlyMap<TrackColumn, number>;
  /** Columns with a heading, known or not. */
  readonly headed: ReadonlySet<number>;
  readonly problems: readonly Finding[];
}

const isColumn = (name: string): name is TrackColumn =>
  (trackColumns as readonly string[]).includes(name);

/** What headings are compared by. */
const headingKey = (heading: string): string => fold(heading).replace(/[ _]/gu, '-');

/** Headings that a finding lists: a row of data may stand in their place. */
const mostShown = 20;
/** Headings that are looked at for slips. */
const mostCompared = 200;

const shown = (headings: readonly string[]): readonly string[] =>
  headings.slice(0, mostShown).map(shortened);

/** Headings that are none of ours; the first ones may be slips of the pen. */
const strangers = (
  cells: readonly CsvCell[],
  free: readonly TrackColumn[],
  file: string,
): readonly Finding[] => {
  const findings: Finding[] = [];
  const unknown: CsvCell[] = [];
  cells.forEach((cell, index) => {
    const near = index < mostCompared ? nearest(cell.text, free) : null;
    if (near === null) {
      unknown.push(cell);
      return;
    }
    const at = { line: cell.line, column: cell.column };
    const args = { heading: shortened(cell.text), near };
    findings.push(finding('warning', 'tracks-heading-near', file, args, at));
  });
  const [first] = unknown;
  if (first === undefined) return findings;
  const headings = shown(unknown.map(({ text }) => text));
  const args = { headings, more: unknown.length - headings.length };
  const at = { line: first.line, column: first.column };
  return [...findings, finding('note', 'tracks-headings-unknown', file, args, at)];
};

/** Columns by the key of the heading that each is looked for by. */
const wantedHeadings = (
  renamed: Readonly<Record<string, string>>,
): ReadonlyMap<TrackColumn, string> => {
  const given = trackColumns.flatMap((column) => {
    const heading = Object.hasOwn(renamed, column) ? renamed[column] : undefined;
    return heading === undefined ? [] : [[column, heading] as const];
  });
  const taken = new Set(given.map(([, heading]) => headingKey(heading)));
  const own = trackColumns.filter(
    (column) => !Object.hasOwn(renamed, column) && !taken.has(column),
  );
  return new Map([...given, ...own.map((column) => [column, column] as const)]);
};

/**
 * Finds the columns by their headings.
 *
 * @param renamed our name -> the heading in the file; a heading that is given away so is no longer ours
 */
export const readHeadings = (
  { cells, line }: CsvRow,
  file: string,
  renamed: Readonly<Record<string, string>>,
): TrackHeadings => {
  const problems: Finding[] = [];
  for (const column of Object.keys(renamed)) {
    if (isColumn(column)) continue;
    problems.push(
      finding('error', 'tracks-renaming', file, { column, near: nearest(column, trackColumns) }),
    );
  }

  const cellsByKey = new Map<string, CsvCell[]>();
  const indexes = new Map<CsvCell, number>();
  cells.forEach((cell, index) => {
    const key = headingKey(cell.text);
    if (key === '') return;
    indexes.set(cell, index);
    const equal = cellsByKey.get(key);
    if (equal === undefined) cellsByKey.set(key, [cell]);
    else equal.push(cell);
  });

  const places = new Map<TrackColumn, number>();
  const used = new Set<string>();
  for (const [column, heading] of wantedHeadings(renamed)) {
    const key = headingKey(heading);
    const [cell, second] = cellsByKey.get(key) ?? [];
    if (cell !== undefined) {
      places.set(column, indexes.get(cell)!);
      used.add(key);
    } else if (column === 'track' || Object.hasOwn(renamed, column)) {
      const present = shown([...indexes.keys()].map(({ text }) => text));
      const args = { column, heading, present };
      problems.push(finding('error', 'tracks-heading-missing', file, args, { line, column: 1 }));
    }
    if (second === undefined) continue;
    const at = { line: second.line, column: second.column };
    const args = { heading: shortened(second.text) };
    problems.push(finding('error', 'tracks-heading-twice', file, args, at));
  }

  const free = trackColumns.filter((column) => !places.has(column));
  const others = [...cellsByKey].flatMap(([key, equal]) => (used.has(key) ? [] : equal));
  const strange = strangers(others, free, file);
  return {
    places,
    headed: new Set(indexes.values()),
    // Slips explain what is missing; what else there is, the error lists.
    problems: [
      ...problems,
      ...(problems.length === 0 ? strange : strange.filter(({ severity }) => severity !== 'note')),
    ],
  };
};
