import {
  finding,
  type Finding,
  type FindingArgs,
  type FindingCode,
  type Place,
} from '../../terms/finding.ts';

/** Faults that are shown at once; more would only hide the first. */
const most = 20;

interface Located {
  readonly file: string | null;
  readonly at: Place | null;
}

interface Fault extends Located {
  /** Made only when it is shown: a did-you-mean takes time, and a file may hold a fault a byte. */
  readonly make: () => Finding;
}

const before = (a: Place | null, b: Place | null): number =>
  (a?.line ?? 0) - (b?.line ?? 0) || (a?.column ?? 0) - (b?.column ?? 0);

/** Everything that is wrong with a file, collected so that it can be mended in one go. */
export class Faults {
  /** As the user named it. */
  readonly file: string;
  readonly #faults: Fault[] = [];
  readonly #notes: Finding[] = [];

  /** By place, those of the file itself first. */
  readonly #inOrder = (a: Located, b: Located): number =>
    Number(a.file !== this.file) - Number(b.file !== this.file) || before(a.at, b.at);

  constructor(file: string) {
    this.file = file;
  }

  get found(): boolean {
    return this.#faults.length > 0;
  }

  /** Notes and warnings met on the way, by place: they stop nothing. */
  get notes(): readonly Finding[] {
    return this.#notes.toSorted(this.#inOrder);
  }

  /** @param file this one, or one that belongs to it */
  add<Code extends FindingCode>(
    at: Place | null,
    code: Code,
    args: () => FindingArgs[Code],
    file = this.file,
  ): void {
    this.#faults.push({ file, at, make: () => finding('error', code, file, args(), at) });
  }

  note<Code extends FindingCode>(at: Place | null, code: Code, args: FindingArgs[Code]): void {
    this.#notes.push(finding('note', code, this.file, args, at));
  }

  /** Takes on what another reader found: errors are faults, the rest are notes. */
  take(found: Finding): void {
    if (found.severity !== 'error') this.#notes.push(found);
    else this.#faults.push({ file: found.file ?? this.file, at: found.at, make: () => found });
  }

  /** The faults by place, those of the file itself first; the last says how many are left out. */
  list(): readonly Finding[] {
    const sorted = this.#faults.toSorted(this.#inOrder);
    const shown = sorted.slice(0, most).map(({ make }) => make());
    const more = sorted.length - shown.length;
    return more === 0
      ? shown
      : [...shown, finding('note', 'yaml-more-faults', this.file, { more })];
  }
}
