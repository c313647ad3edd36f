import type { FindingArgs, FindingCode } from '../../terms/finding.ts';

/** What a person reads of a finding. Where it is stands apart from it. */
export interface Words {
  /** What was found and what it means for the result. */
  readonly message: string;
  /** What to do about it. */
  readonly hint: string;
}

/** The words for each of the codes, from what the finding carries. */
export type Wording<Code extends FindingCode> = {
  readonly [Each in Code]: (args: FindingArgs[Each]) => Words;
};

export const words = (message: string, hint: string): Words => ({ message, hint });
