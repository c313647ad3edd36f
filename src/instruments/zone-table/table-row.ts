import type { CsvRow } from '../../notation/csv.ts';
import type { Place } from '../../terms/finding.ts';
import { shown } from './cell-text.ts';
import type { ColumnName, Columns } from './columns.ts';
import type { Faults } from './faults.ts';

/** A row of a table, its cells by the names of their columns. */
export class TableRow {
  readonly #row: CsvRow;
  readonly #columns: Columns;
  readonly #faults: Faults;
  #isSound = true;

  constructor(row: CsvRow, columns: Columns, faults: Faults) {
    this.#row = row;
    this.#columns = columns;
    this.#faults = faults;
  }

  get line(): number {
    return this.#row.line;
  }

  /** False once something in the row was found to be wrong. */
  get isSound(): boolean {
    return this.#isSound;
  }

  /** What stands in a cell, without space around it; '' where there is no such cell. */
  text(column: ColumnName): string {
    return this.#cell(column)?.text.trim() ?? '';
  }

  /** Where a cell is; the line alone where the row ends before it. */
  at(column: ColumnName): Place {
    const cell = this.#cell(column);
    return cell === undefined ? { line: this.#row.line } : { line: cell.line, column: cell.column };
  }

  /** What `read` makes of a cell: `empty` for an empty one, also after the fault `table-cell`. */
  read<Value>(column: ColumnName, empty: Value, read: (text: string) => Value | null): Value {
    const text = this.text(column);
    if (text === '') return empty;
    const value = read(text);
    if (value !== null) return value;
    this.fault('table-cell', column, { column, value: shown(text) });
    return empty;
  }

  fault<Code extends Parameters<Faults['add']>[0]>(
    code: Code,
    column: ColumnName,
    args: Parameters<typeof Faults.prototype.add<Code>>[1],
  ): void {
    this.#isSound = false;
    this.#faults.add(code, args, this.at(column));
  }

  #cell(column: ColumnName): CsvRow['cells'][number] | undefined {
    const index = this.#columns.get(column);
    return index === undefined ? undefined : this.#row.cells[index];
  }
}
