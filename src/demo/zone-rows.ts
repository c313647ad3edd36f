/** A zone table as it is written here: what stands in each column of a row. */
export interface OrchestraTable {
  /** The file's name without its ending. */
  readonly name: string;
  readonly csv: string;
}

/** Cells by column; what a row leaves out is an empty cell. */
export type Row<Column extends string> = Readonly<Partial<Record<Column, string>>>;

/**
 * The text of a table: its headings, then its rows, lines ended as spreadsheets do. No cell here holds
 * the sign that divides them, so none is quoted.
 */
export const table = <Column extends string>(
  name: string,
  columns: readonly Column[],
  rows: readonly Row<Column>[],
  divider: ',' | ';' = ',',
): OrchestraTable => {
  const lines = rows.map((row) => columns.map((column) => row[column] ?? '').join(divider));
  return { name, csv: [columns.join(divider), ...lines, ''].join('\r\n') };
};

/** Borders between layers: `layers(40, 90)` is velocities 1-40, 41-90 and 91-127. */
export const layers = (...tops: readonly number[]): string =>
  [...tops, 127].map((top, i) => `${String((tops[i - 1] ?? 0) + 1)}-${String(top)}`).join('|');

/**
 * Layers that controller 1 fades through, each into the next over `overlap` values: `fades(10, 64)` is
 * 1:0-68 and 1:59-127.
 */
export const fades = (overlap: number, ...borders: readonly number[]): string => {
  const half = Math.floor(overlap / 2);
  const lows = [0, ...borders.map((border) => border - half)];
  const highs = [...borders.map((border) => border + half - 1), 127];
  return lows.map((lo, i) => `1:${String(lo)}-${String(highs[i]!)}`).join('|');
};
