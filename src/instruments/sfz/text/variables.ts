import { shown } from '../../zone-table/cell-text.ts';
import { isNameSign } from './characters.ts';
import type { Place } from './document.ts';
import { limits } from './limits.ts';
import type { Remarks } from './remarks.ts';

/** What a single `$` costs of {@link limits.expansion}, so that empty variables are not free. */
const costOfOne = 16;

/**
 * The variables of `#define` as they stand at one point of the reading. A name is read up to the
 * first, that is the shortest, that is defined: with `$abc`, `$abcdef` is `$abc` and `def`. A value
 * is gone through again until no `$` is left, so variables stand for one another whichever was
 * defined first.
 */
export class Variables {
  readonly #values = new Map<string, string>();
  readonly #remarks: Remarks;
  #longestName = 0;
  #spent = 0;

  constructor(remarks: Remarks) {
    this.#remarks = remarks;
  }

  /** @throws {InputError} when there are too many, or name or value are too long */
  define(name: string, value: string, place: Place): void {
    if (name.length > limits.variableName) {
      const limit = limits.variableName;
      throw this.#remarks.error('sfz-too-large', place, { what: 'variable-name', limit });
    }
    this.#checkValue(value.length, place);
    this.#values.set(name, value);
    if (this.#values.size > limits.variables) {
      const limit = limits.variables;
      throw this.#remarks.error('sfz-too-large', place, { what: 'variables', limit });
    }
    this.#longestName = Math.max(this.#longestName, name.length);
  }

  /**
   * The text with all variables put in; unknown ones, and a `$` before no name, fall away with a
   * remark.
   *
   * @throws {InputError} when it becomes too long or has no end
   */
  expand(text: string, place: Place): string {
    let current = text;
    for (let passes = 0; current.includes('$'); passes += 1) {
      if (passes === limits.passes) {
        throw this.#remarks.error('sfz-variable-endless', place, { text: shown(text) });
      }
      current = this.#once(current, place);
    }
    return current;
  }

  #once(text: string, place: Place): string {
    const pieces: string[] = [];
    let length = 0;
    const put = (piece: string): void => {
      pieces.push(piece);
      length += piece.length;
      this.#checkValue(length, place);
    };
    let from = 0;
    for (let at = text.indexOf('$'); at >= 0; at = text.indexOf('$', from)) {
      put(text.slice(from, at));
      const { end, value } = this.#lookUp(text, at + 1);
      if (value === null) {
        const variable = shown(text.slice(at, end));
        this.#remarks.add('warning', 'sfz-variable-unknown', place, { variable });
      } else put(value);
      from = end;
      this.#spend(costOfOne, place);
    }
    put(text.slice(from));
    this.#spend(length, place);
    return pieces.join('');
  }

  /** The shortest name that is defined, or else all that might be one. */
  #lookUp(text: string, from: number): { readonly end: number; readonly value: string | null } {
    let end = from;
    while (isNameSign(text.charCodeAt(end))) {
      end += 1;
      const value =
        end - from <= this.#longestName ? this.#values.get(text.slice(from, end)) : undefined;
      if (value !== undefined) return { end, value };
    }
    return { end, value: null };
  }

  #checkValue(length: number, place: Place): void {
    if (length <= limits.value) return;
    throw this.#remarks.error('sfz-too-large', place, { what: 'value', limit: limits.value });
  }

  #spend(characters: number, place: Place): void {
    this.#spent += characters;
    if (this.#spent <= limits.expansion) return;
    const limit = limits.expansion;
    throw this.#remarks.error('sfz-too-large', place, { what: 'expansion', limit });
  }
}
