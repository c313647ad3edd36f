import type { Overview } from '../../overview/overview.ts';
import { messageOf } from '../messages.ts';

/** What stands against a proof, each once, in words. */
export const againstProof = ({
  proof,
  findings,
}: Pick<Overview, 'proof' | 'findings'>): readonly string[] =>
  proof.open
    .flatMap((code) => findings.find((one) => one.code === code) ?? [])
    .map((one) => messageOf(one).message);
