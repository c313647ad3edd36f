import type { Alternatives } from './alternatives.ts';
import { firstMoments, passingMoments, type SignalsNow } from './first-moments.ts';
import type { Moment } from './zone-usage.ts';

/**
 * The moments of one copy, made once for all events that find its fading signals alike: long rides go
 * over the same few values again and again.
 */
export class MomentTable {
  readonly #fading: readonly number[];
  readonly #first = new Map<string, readonly Moment[]>();
  readonly #passing = new Map<string, readonly Moment[]>();

  constructor(fading: readonly number[]) {
    this.#fading = fading;
  }

  /** {@link firstMoments} of the fading signals. */
  first(
    seen: readonly Alternatives[],
    previous: (signal: number) => Alternatives | null,
  ): readonly Moment[] {
    let text = '';
    for (const signal of this.#fading) {
      text += ` ${String(seen[signal]!.id)}<${String(previous(signal)?.id)}`;
    }
    let found = this.#first.get(text);
    if (found === undefined) {
      this.#first.set(text, (found = firstMoments(this.#fading, seen, previous)));
    }
    return found;
  }

  /** {@link passingMoments} of the fading signals. */
  passing(changed: readonly number[], scope: SignalsNow): readonly Moment[] {
    let text = '';
    for (const signal of this.#fading) {
      text += ` ${String(scope.present(signal).id)}`;
      if (!changed.includes(signal)) continue;
      text += `<${String(scope.previous(signal).id)}~${String(scope.mayBecome(signal)?.id)}`;
    }
    let found = this.#passing.get(text);
    if (found === undefined) {
      this.#passing.set(text, (found = passingMoments(this.#fading, changed, scope)));
    }
    return found;
  }
}
