import { inputError, InputError } from '../../../terms/errors.ts';
import type { Finding } from '../../../terms/finding.ts';
import type { Agreement, Stated } from '../../../terms/findings/keep-files.ts';

/** Disagreements that are told; more of one file help nobody. */
const most = 10;

type Value = string | number;

/** Holds what a keep file states against what the rest of it comes to; the first that differ are told. */
export class Disagreements {
  readonly #file: string;
  readonly #found: Finding[] = [];
  #instrument: string | null = null;

  /** @param file the keep file as the user named it */
  constructor(file: string) {
    this.#file = file;
  }

  /** What follows is said of this instrument; null: of the whole. */
  about(instrument: string | null): void {
    this.#instrument = instrument;
  }

  same<Of extends Value>(what: Stated, says: Of, is: Of, of: Value | null = null): void {
    if (says !== is) this.#add(what, 'same', says, is, of);
  }

  atMost(what: Stated, says: number, limit: number, of: Value | null = null): void {
    if (says > limit) this.#add(what, 'most', says, limit, of);
  }

  atLeast(what: Stated, says: number, limit: number, of: Value | null = null): void {
    if (says < limit) this.#add(what, 'least', says, limit, of);
  }

  /** A name that has to be found elsewhere. */
  known(what: Stated, says: Value, names: Pick<ReadonlySet<Value>, 'has'>, of?: Value): void {
    if (!names.has(says)) this.#add(what, 'known', says, null, of ?? null);
  }

  /** @returns what was said, each once */
  once<Of extends Value>(what: Stated, says: readonly Of[], of: Value | null = null): Set<Of> {
    const seen = new Set<Of>();
    for (const one of says) {
      if (seen.has(one)) this.#add(what, 'once', one, null, of);
      seen.add(one);
    }
    return seen;
  }

  never(what: Stated, says: Value, of: Value | null = null): void {
    this.#add(what, 'never', says, null, of);
  }

  get isFull(): boolean {
    return this.#found.length >= most;
  }

  /** @throws {InputError} with all that differ, if any do */
  settle(): void {
    const [first, ...others] = this.#found;
    if (first !== undefined) throw new InputError(first, others);
  }

  #add(what: Stated, rule: Agreement, says: Value, is: Value | null, of: Value | null): void {
    if (this.isFull) return;
    const instrument = this.#instrument;
    const args = { what, rule, of: of === null ? null : String(of), says, is, instrument };
    this.#found.push(inputError('keep-file-disagrees', this.#file, args).finding);
  }
}
