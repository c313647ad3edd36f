import type { Shape } from './shape.ts';

/** Faults that are told; more of one file help nobody. */
const mostFaults = 10;

type Step = string | number;

/** Something that does not belong where it stands. */
export interface ShapeFault {
  readonly path: readonly Step[];
  /** What belongs there, in a few words. */
  readonly expected: string;
}

/** The first faults of a file, with the place that is being looked at. */
export class ShapeFaults {
  readonly found: ShapeFault[] = [];
  readonly #path: Step[] = [];

  get isFull(): boolean {
    return this.found.length >= mostFaults;
  }

  add(expected: string): void {
    if (!this.isFull) this.found.push({ path: [...this.#path], expected });
  }

  within<Value>(step: Step, shape: Shape<Value>, value: unknown): void {
    this.#path.push(step);
    shape(value, this);
    this.#path.pop();
  }
}

/** A place as people write it in JSON. @example pathText(['kept', 12, 'zone']) // 'kept[12].zone' */
export const pathText = (path: readonly Step[]): string =>
  path
    .map((step) => {
      if (typeof step === 'number') return `[${String(step)}]`;
      return /^[A-Za-z]\w*$/u.test(step) ? `.${step}` : `[${JSON.stringify(step)}]`;
    })
    .join('')
    .replace(/^\./u, '');
