import type { Place } from '../../terms/finding.ts';
import { checkDeclared, firstFew } from './declared.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { shortened } from '../../notation/document/shortened.ts';

/** An id as it is used somewhere. */
export interface Use {
  readonly id: string;
  readonly at: Place;
}

/**
 * Says which machine, or which player, each instrument is for: its own, else the default, else the
 * only one that is declared; where none is declared, the one that stands in for a template.
 */
export class Assigner {
  readonly #reader: Reader;
  readonly #kind: 'machine' | 'player';
  readonly #ids: ReadonlySet<string>;
  readonly #byDefault: Use | null;
  readonly #used = new Set<string>();
  #isDefaultUsed = false;

  /** @param ids what is declared, in file order */
  constructor(
    reader: Reader,
    kind: 'machine' | 'player',
    ids: ReadonlySet<string>,
    byDefault: Use | null,
  ) {
    this.#reader = reader;
    this.#kind = kind;
    this.#ids = ids;
    this.#byDefault = byDefault;
    if (byDefault !== null) checkDeclared(reader, kind, byDefault.id, byDefault.at, ids);
  }

  /** The id for an instrument that stands at `at` and names `own` itself, or nothing. */
  assign(instrument: string, at: Place, own: Use | null): string {
    const id = this.#choose(instrument, at, own);
    this.#used.add(id);
    return id;
  }

  #choose(instrument: string, at: Place, own: Use | null): string {
    if (own !== null) {
      checkDeclared(this.#reader, this.#kind, own.id, own.at, this.#ids);
      return own.id;
    }
    if (this.#byDefault !== null) {
      this.#isDefaultUsed = true;
      return this.#byDefault.id;
    }
    const [only = 'default', second] = this.#ids;
    if (second !== undefined) {
      this.#reader.faults.add(at, 'template-unassigned', () => ({
        kind: this.#kind,
        instrument: shortened(instrument),
        declared: firstFew(this.#ids),
      }));
    }
    return only;
  }

  /** Once all are assigned: notes on what is declared for nothing. */
  noteUnused(): void {
    const { faults } = this.#reader;
    if (this.#byDefault !== null && !this.#isDefaultUsed) {
      const path = ['defaults', this.#kind];
      faults.note(this.#byDefault.at, 'template-key-idle', { path, reason: 'own' });
    }
    for (const { key, at } of this.#reader.namedEntries(`${this.#kind}s`)) {
      if (this.#used.has(key)) continue;
      faults.note(at, 'template-unused', { kind: this.#kind, id: key });
    }
  }
}
