import { inputError, type InputError } from '../../../terms/errors.ts';
import {
  finding,
  type Finding,
  type FindingArgs,
  type FindingCode,
  type Severity,
} from '../../../terms/finding.ts';
import type { SfzFindings } from '../../../terms/findings/sfz.ts';
import type { Place, SfzFile } from './document.ts';

type Counted = {
  [Code in keyof SfzFindings]: SfzFindings[Code] extends { readonly times: number } ? Code : never;
}[keyof SfzFindings];

interface Remark {
  readonly severity: Severity;
  readonly code: Counted;
  readonly args: object;
  readonly place: Place;
  times: number;
}

/** As many of one kind as a person looks through. */
const mostOfAKind = 20;

/** What is odd about an instrument but does not keep it from being read: the same thing said once. */
export class Remarks {
  readonly #files: readonly SfzFile[];
  readonly #remarks = new Map<string, Remark>();
  readonly #kinds = new Map<Counted, number>();
  #more = 0;

  /** @param files those that places lead to; it may grow */
  constructor(files: readonly SfzFile[]) {
    this.#files = files;
  }

  add<Code extends Counted>(
    severity: Severity,
    code: Code,
    place: Place,
    args: Omit<SfzFindings[Code], 'times'>,
  ): void {
    const key = `${code} ${JSON.stringify(args)}`;
    const known = this.#remarks.get(key);
    if (known !== undefined) {
      known.times += 1;
      return;
    }
    const kinds = this.#kinds.get(code) ?? 0;
    if (kinds === mostOfAKind) {
      this.#more += 1;
      return;
    }
    this.#kinds.set(code, kinds + 1);
    this.#remarks.set(key, { severity, code, args, place, times: 1 });
  }

  /** Something that ends the reading. */
  error<Code extends FindingCode>(code: Code, place: Place, args: FindingArgs[Code]): InputError {
    return inputError(code, this.#files[place.file]!.path, args, at(place));
  }

  /** In the order they were first met. */
  findings(): readonly Finding[] {
    const all = [...this.#remarks.values()].map(({ severity, code, args, place, times }) =>
      finding(
        severity,
        code,
        this.#files[place.file]!.path,
        { ...args, times } as SfzFindings[typeof code],
        at(place),
      ),
    );
    if (this.#more === 0) return all;
    const path = this.#files[0]!.path;
    return [...all, finding('note', 'sfz-remarks-more', path, { remarks: this.#more })];
  }
}

const at = ({ line, column }: Place): { readonly line: number; readonly column: number } => ({
  line,
  column,
});
