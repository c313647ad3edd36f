import { finding, type Finding } from '../../terms/finding.ts';
import { readCsv, type CsvTable } from '../../notation/csv.ts';
import { fold } from '../../notation/fold.ts';
import { makeRoute } from './make-route.ts';
import { capturesKey } from './route-checks.ts';
import type { Route } from '../route.ts';
import { readHeadings } from './track-columns.ts';
import { readTrackRow, type TrackRow } from './track-row.ts';

/** Ten times the largest template one would build. */
const mostRows = 20_000;
/** Errors that are listed; the rest are counted. A person mends a column at once or not at all. */
const mostErrors = 100;

export interface TrackTable {
  /** In file order. */
  readonly routes: readonly Route[];
  /** Errors, warnings and notes; with an error the routes are not all there. */
  readonly problems: readonly Finding[];
}

/** Rows with the same word of `join`, so that they agree. */
interface Joined {
  /** As it is first written, so that a copy has one name throughout. */
  readonly word: string;
  readonly track: string;
  readonly captures: string;
}

const readRow = (
  { fields, problems, placeOf }: TrackRow,
  file: string,
  joined: Map<string, Joined>,
): Route | readonly Finding[] => {
  if (problems.length > 0) return problems;
  const key = fields.joinWord === null ? null : fold(fields.joinWord);
  const before = key === null ? undefined : joined.get(key);
  const joinWord = before?.word ?? fields.joinWord;
  const route = makeRoute({ ...fields, joinWord }, file, placeOf('tracks'));
  if ('problem' in route) return [{ ...route.problem, at: placeOf(route.field) }];
  if (key === null || joinWord === null) return route;
  const pattern = route.tracks[0]!;
  const captures = capturesKey(pattern);
  if (before !== undefined && before.captures !== captures) {
    const args = { first: before.track, second: pattern.text };
    return [finding('error', 'route-join-captures', file, args, placeOf('tracks'))];
  }
  if (before === undefined) joined.set(key, { word: joinWord, track: pattern.text, captures });
  return route;
};

const readRows = (
  { rows, decimalComma, encoding }: CsvTable,
  file: string,
  renamed: Readonly<Record<string, string>>,
): TrackTable => {
  const [first, ...others] = rows;
  if (first === undefined)
    return { routes: [], problems: [finding('error', 'tracks-empty', file, {})] };
  const headings = readHeadings(first, file, renamed);
  const routes: Route[] = [];
  const problems: Finding[] = [...headings.problems];
  // What stands for an accent is a guess then, and names may not match.
  if (encoding === 'windows-1252') problems.push(finding('note', 'tracks-encoding', file, {}));
  // Without its headings a table says nothing, and each row would only say so again.
  if (problems.some(({ severity }) => severity === 'error')) return { routes, problems };
  if (others.length === 0) problems.push(finding('warning', 'tracks-empty', file, {}));
  if (others.length > mostRows) {
    const args = { rows: others.length, limit: mostRows };
    return { routes, problems: [...problems, finding('error', 'tracks-too-many', file, args)] };
  }
  const joined = new Map<string, Joined>();
  let errors = 0;
  for (const row of others) {
    const made = readRow(readTrackRow(row, headings, decimalComma, file), file, joined);
    if ('rule' in made) {
      routes.push(made);
      continue;
    }
    problems.push(...made.slice(0, Math.max(0, mostErrors - errors)));
    errors += made.length;
  }
  if (errors > mostErrors) {
    const args = { more: errors - mostErrors };
    problems.push(finding('error', 'tracks-more-errors', file, args));
  }
  return { routes, problems };
};

/**
 * Reads a table of tracks (design, section 8): one rule a row, by the columns `track` (required),
 * `cue`, `port`, `channel`, `instrument`, `articulation`, `join`, `transpose`, `velocity`,
 * `controllers`, `printed`, `ignore`. Headings are compared folded, blanks and underscores like
 * hyphens. No row is left out silently.
 *
 * @param columns our name of a column -> its heading in the file
 * @returns never throws; errors are among the problems, each with line and column: `tracks-unreadable`,
 *   `tracks-empty`, `tracks-heading-missing`, `tracks-heading-twice`, `tracks-renaming`,
 *   `tracks-too-many`, `tracks-cell`, `tracks-cell-extra`, `tracks-more-errors`, and those of a rule
 */
export const readTracks = (
  bytes: Uint8Array,
  file: string,
  columns: Readonly<Record<string, string>>,
): TrackTable => {
  const table = readCsv(bytes);
  if (!('problem' in table)) return readRows(table, file, columns);
  const { problem, line, column } = table;
  return {
    routes: [],
    problems: [finding('error', 'tracks-unreadable', file, { problem }, { line, column })],
  };
};
