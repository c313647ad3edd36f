import type { Plan } from '../keep/plan.ts';
import { inputError } from '../terms/errors.ts';
import type { TrimAccepted } from '../trim/trim.ts';
import { checkCueIds } from './find-reel.ts';

/** What the user takes upon himself. */
export interface Acceptance {
  readonly acceptDamage?: readonly string[];
  readonly acceptPartial?: readonly string[];
  readonly allowUnmapped?: boolean;
}

/**
 * What was accepted, now or in the plan, as far as there is anything to accept.
 *
 * @throws {UsageError} when a name is no cue's
 */
export const acceptedOf = (
  plan: Pick<Plan, 'cues' | 'findings' | 'settings'>,
  { acceptDamage = [], acceptPartial = [], allowUnmapped = false }: Acceptance,
): TrimAccepted => {
  const { cues, settings } = plan;
  checkCueIds(
    cues.map(({ id }) => id),
    [...acceptDamage, ...acceptPartial],
  );
  const partial = new Set([...acceptPartial, ...settings.acceptPartial]);
  return {
    damage: damagedCues(plan).filter((id) => acceptDamage.includes(id)),
    partial: cues.map(({ id }) => id).filter((id) => partial.has(id)),
    unmapped: unmappedTracks(plan) > 0 && (allowUnmapped || settings.allowUnmapped),
  };
};

/**
 * Damage is never silence: where it is not known what the cues play, nothing is written.
 *
 * @param by the command that asks: it has its own words for what is not known
 * @throws {InputError} `trim-damaged`, `trim-partial` or `trim-unmapped`, or the same of a primer
 */
export const refuseUnknown = (
  plan: Pick<Plan, 'cues' | 'findings'>,
  { damage, partial, unmapped }: TrimAccepted,
  file: string | null,
  by: 'trim' | 'primer' = 'trim',
): void => {
  const damaged = damagedCues(plan).filter((id) => !damage.includes(id));
  if (damaged.length > 0) throw inputError(`${by}-damaged`, file, { cues: damaged });
  const doubtful = partialCues(plan).filter((id) => !partial.includes(id));
  if (doubtful.length > 0) throw inputError(`${by}-partial`, file, { cues: doubtful });
  const tracks = unmappedTracks(plan);
  if (tracks > 0 && !unmapped) throw inputError(`${by}-unmapped`, file, { tracks });
};

const damagedCues = ({ cues }: Pick<Plan, 'cues'>): readonly string[] =>
  cues.filter(({ state }) => state !== 'read').map(({ id }) => id);

const partialCues = ({ findings }: Pick<Plan, 'findings'>): readonly string[] => [
  ...new Set(findings.flatMap((one) => (one.code === 'cue-looks-partial' ? [one.args.cue] : []))),
];

export const unmappedTracks = ({ findings }: Pick<Plan, 'findings'>): number =>
  findings.reduce(
    (sum, one) => (one.code === 'part-unmapped' ? sum + one.args.tracks.length : sum),
    0,
  );
