import { within, type DoubtSet } from '../terms/doubt.ts';

/**
 * One value that a signal may have at an event, and the doubts under which it has it.
 *
 * `chosen` stands for every value that the same copy chooses for this signal anywhere in the reel;
 * `unchosen` for every value there is, should the copy never choose one. Both are resolved in
 * `keep/`, after the usage of all cues has been merged.
 */
export interface Alternative {
  readonly value: number | 'chosen' | 'unchosen';
  readonly doubt: DoubtSet;
}

/** What a signal may be at an event: exactly one alternative is plain, and it comes first. */
export interface Alternatives {
  /** Position in the table it was made by; equal lists of one table are the same object. */
  readonly id: number;
  readonly list: readonly Alternative[];
}

const order = (a: Alternative, b: Alternative): number => {
  if (a.doubt !== b.doubt) return a.doubt - b.doubt;
  if (typeof a.value === 'number' && typeof b.value === 'number') return a.value - b.value;
  return String(a.value) < String(b.value) ? -1 : 1;
};

/** Drops repeats, and whatever a smaller doubt set says already for the same value. */
const minimalAlternatives = (list: readonly Alternative[]): Alternative[] => {
  const byValue = new Map<Alternative['value'], DoubtSet[]>();
  for (const { value, doubt } of list) {
    const doubts = byValue.get(value);
    if (doubts === undefined) byValue.set(value, [doubt]);
    else if (!doubts.some((other) => within(other, doubt))) {
      byValue.set(value, [...doubts.filter((other) => !within(doubt, other)), doubt]);
    }
  }
  return [...byValue]
    .flatMap(([value, doubts]) => doubts.map((doubt) => ({ value, doubt })))
    .sort(order);
};

/** Makes and interns lists of alternatives, so that they compare by identity. */
export class AlternativesTable {
  readonly all: Alternatives[] = [];
  readonly #byText = new Map<string, Alternatives>();
  readonly #single = new Map<number, Alternatives>();
  readonly #joined = new Map<string, Alternatives>();

  /** A signal whose value is certain. */
  single(value: number): Alternatives {
    let found = this.#single.get(value);
    if (found === undefined) {
      found = this.of([{ value, doubt: 0 }]);
      this.#single.set(value, found);
    }
    return found;
  }

  of(list: readonly Alternative[]): Alternatives {
    const least = minimalAlternatives(list);
    const text = least.map(({ value, doubt }) => `${String(value)}/${String(doubt)}`).join(' ');
    let found = this.#byText.get(text);
    if (found === undefined) {
      found = { id: this.all.length, list: least };
      this.all.push(found);
      this.#byText.set(text, found);
    }
    return found;
  }

  /** `first` as it is, and all that the others say, each with `doubt` added. */
  join(first: Alternatives, others: Iterable<Alternatives>, doubt: DoubtSet): Alternatives {
    const rest = [...new Set(others)].filter((other) => other !== first || other.list.length > 1);
    if (rest.length === 0) return first;
    const key = `${String(first.id)}|${rest.map(({ id }) => id).join(' ')}|${String(doubt)}`;
    let found = this.#joined.get(key);
    if (found === undefined) {
      found = this.of([
        ...first.list,
        ...rest.flatMap(({ list }) => list.map((one) => ({ ...one, doubt: one.doubt | doubt }))),
      ]);
      this.#joined.set(key, found);
    }
    return found;
  }
}
