import type { Alternatives, AlternativesTable } from './alternatives.ts';
import { Cell } from './cell.ts';

/** A signal that each key has by itself: poly pressure. Keys without a message are as at the start. */
export class KeyedCell {
  readonly #table: AlternativesTable;
  readonly #initial: Alternatives;
  readonly #cells = new Map<number, Cell>();

  constructor(table: AlternativesTable, initial: Alternatives) {
    this.#table = table;
    this.#initial = initial;
  }

  now(key: number): Alternatives {
    return this.#cells.get(key)?.now ?? this.#initial;
  }

  set(key: number, next: Alternatives): void {
    this.#cell(key).set(next);
  }

  /** Every key that has had a message. */
  each(visit: (cell: Cell) => void): void {
    for (const cell of this.#cells.values()) visit(cell);
  }

  seen(now: Alternatives, key: number): Alternatives {
    return this.#cells.get(key)?.seen(now) ?? now;
  }

  endTick(): void {
    for (const cell of this.#cells.values()) cell.endTick();
  }

  #cell(key: number): Cell {
    let cell = this.#cells.get(key);
    if (cell === undefined) this.#cells.set(key, (cell = new Cell(this.#table, this.#initial)));
    return cell;
  }
}
