import {
  finding,
  type Finding,
  type FindingArgs,
  type FindingCode,
  type Place,
} from './finding.ts';

/**
 * A finding that stops the work. `message` holds the code and the file; the sentence for people is
 * made from `finding` by `report/messages`.
 */
class StoppingError extends Error {
  readonly finding: Finding;
  /** Further faults of the same file, so that a person can mend them in one go. */
  readonly others: readonly Finding[];

  constructor(stop: Finding, others: readonly Finding[] = []) {
    super(stop.file === null ? stop.code : `${stop.code}: ${stop.file}`);
    this.finding = stop;
    this.others = others;
  }
}

/** An input file, or what was to be written, is not usable: what, where and why. */
export class InputError extends StoppingError {
  override readonly name = 'InputError';
}

/** The template, or its table of tracks, is not usable: file, line, column and what to write. */
export class TemplateError extends StoppingError {
  override readonly name = 'TemplateError';
}

/** The command or the call itself is wrong: an option, a value, a combination. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
  readonly hint: string;

  /** @param hint what to do instead, a sentence */
  constructor(message: string, hint = '') {
    super(message);
    this.hint = hint;
  }
}

/** An {@link InputError} from a code and its arguments. */
export const inputError = <Code extends FindingCode>(
  code: Code,
  file: string | null,
  args: FindingArgs[Code],
  at: Place | null = null,
): InputError => new InputError(finding('error', code, file, args, at));
