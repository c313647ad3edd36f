import { InputError } from '../../terms/errors.ts';
import {
  finding,
  type Finding,
  type FindingArgs,
  type FindingCode,
  type Place,
} from '../../terms/finding.ts';

/** As many faults as a person mends before trying again. */
const mostFaults = 20;

/** What is wrong with a table, gathered so that it can be mended in one go. */
export class Faults {
  readonly #path: string;
  readonly #found: Finding[] = [];

  constructor(path: string) {
    this.#path = path;
  }

  /** True when no more are gathered. */
  get isFull(): boolean {
    return this.#found.length >= mostFaults;
  }

  add<Code extends FindingCode>(code: Code, args: FindingArgs[Code], at: Place): void {
    if (!this.isFull) this.#found.push(finding('error', code, this.#path, args, at));
  }

  /**
   * Goes on only if nothing is wrong.
   *
   * @throws {InputError} the first fault in the order of the file, with the others
   */
  check(): void {
    const [first, ...others] = this.#found.sort(byPlace);
    if (first !== undefined) throw new InputError(first, others);
  }
}

const byPlace = ({ at: a }: Finding, { at: b }: Finding): number =>
  (a?.line ?? 0) - (b?.line ?? 0) || (a?.column ?? 0) - (b?.column ?? 0);
