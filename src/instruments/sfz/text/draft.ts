import { shown } from '../../zone-table/cell-text.ts';
import { canonicalName } from './aliases.ts';
import { endOfName } from './characters.ts';
import type { Header, Opcode, Place } from './document.ts';
import { limits } from './limits.ts';
import type { Remarks } from './remarks.ts';
import { Variables } from './variables.ts';

/** Headers that mean something; `midi` and `effect` do not bear on which samples are reached. */
const known = new Set([
  ...['region', 'group', 'master', 'global', 'control', 'curve', 'sample'],
  ...['effect', 'midi'],
]);

/** A document while its files are read: the headers so far, and what holds from one file to the next. */
export class Draft {
  readonly headers: Header[] = [];
  readonly remarks: Remarks;
  readonly variables: Variables;
  /** Names as written, without variables, and their one spelling. */
  readonly #spellings = new Map<string, string>();
  #current: Opcode[] | null = null;
  #opcodes = 0;
  #regions = 0;

  constructor(remarks: Remarks) {
    this.remarks = remarks;
    this.variables = new Variables(remarks);
  }

  /** @throws {InputError} when there are too many */
  addHeader(name: string, place: Place, inclusion: number): void {
    if (name === 'region') this.#regions += 1;
    if (this.#regions > limits.regions) {
      throw this.remarks.error('sfz-too-large', place, { what: 'regions', limit: limits.regions });
    }
    if (this.headers.length === limits.headers) {
      throw this.remarks.error('sfz-too-large', place, { what: 'headers', limit: limits.headers });
    }
    this.#current = [];
    this.headers.push({ name, place, inclusion, opcodes: this.#current });
    if (!known.has(name)) {
      this.remarks.add('warning', 'sfz-header-unknown', place, { header: shown(name) });
    }
  }

  /** @throws {InputError} when there are too many */
  addOpcode(opcode: Opcode): void {
    const { name, place } = opcode;
    this.#opcodes += 1;
    if (this.#opcodes > limits.opcodes) {
      throw this.remarks.error('sfz-too-large', place, { what: 'opcodes', limit: limits.opcodes });
    }
    if (this.#current !== null) this.#current.push(opcode);
    else this.remarks.add('warning', 'sfz-outside-header', place, { opcode: shown(name) });
  }

  /** The one spelling of a name that may hold variables; null when it is no name with them put in. */
  spelling(written: string, place: Place): string | null {
    const known = this.#spellings.get(written);
    if (known !== undefined) return known;
    if (written.includes('$')) {
      const name = this.variables.expand(written, place);
      return name === '' || endOfName(name, 0) < name.length ? null : canonicalName(name);
    }
    const spelling = canonicalName(written);
    this.#spellings.set(written, spelling);
    return spelling;
  }
}
