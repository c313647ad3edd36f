import type { Plan, PlanInstrument } from '../keep/plan.ts';
import { InputError } from '../terms/errors.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { comparePlans } from '../trim/compare-plans.ts';
import { trimSetOf } from '../trim/keep-trim-set.ts';
import type { TrimProof } from '../trim/trim.ts';
import type { PreparedTrim } from './prepare-trim.ts';

/**
 * Whether the score finds in the smaller instruments all that it finds in the full ones.
 *
 * @param small the plan of what was written
 * @throws {InputError} `trim-unmet` for the first zones where it does not
 */
export const provenBy = (
  { full, sorted, placed, instruments, moved }: PreparedTrim,
  small: Plan,
): { readonly proof: TrimProof; readonly findings: readonly Finding[] } => {
  const there = new Set(small.cues.map(({ id }) => id));
  const byPath = new Map(
    small.cues.flatMap(({ id, files }) => files.map(({ path }) => [path, id])),
  );
  const names = new Map(
    full.cues.map(({ id, files }) => [
      id,
      there.has(id) ? id : (byPath.get(moved(files[0]!.path)) ?? id),
    ]),
  );
  const needed = new Map(full.instruments.map((one) => [one.id, one]));
  const setOf = (id: string) => trimSetOf(needed.get(id)!, instruments.get(id)!);
  const { zones, unmet, more } = comparePlans(
    full,
    small,
    placed,
    setOf,
    (cue) => names.get(cue) ?? cue,
  );
  const forgotten = sorted.unplayed
    .filter((id) => setOf(id).loaded.size > 0)
    .map((instrument) => unwritten(needed.get(instrument)!));
  const [first, ...others] = [...unmet, ...forgotten];
  if (first !== undefined) throw new InputError(first, others);
  const written = new Set(placed.flatMap(({ definition }) => definition.instruments));
  const notes = small.instruments
    .filter(({ id }) => written.has(id))
    .flatMap(({ copies }) => copies)
    .reduce((sum, copy) => sum + copy.notes, 0);
  return { proof: { cues: small.cues.length, notes, zones }, findings: more };
};

/** Nothing of it was to stay, and yet cues need it. */
const unwritten = ({ id, source, kept: [first] }: PlanInstrument): Finding =>
  finding('error', 'trim-unmet', source, {
    instrument: id,
    zone: first!.zone,
    cue: first!.witnesses[0]?.cue ?? null,
  });
