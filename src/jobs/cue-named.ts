import { withoutVersion } from '../midi/cue-name.ts';
import { nearest } from '../notation/nearest.ts';
import { UsageError } from '../terms/errors.ts';

/**
 * The id of the cue that is meant: its id, or its number where there is one version.
 *
 * @throws {UsageError} when there is none, or there are several versions
 */
export const cueNamed = (ids: readonly string[], name: string): string => {
  if (ids.includes(name)) return name;
  const known = [...new Set(ids)];
  const versions = known.filter((id) => withoutVersion(id) === name);
  if (versions.length === 1) return versions[0]!;
  if (versions.length > 1) {
    throw new UsageError(
      `There are several versions of "${name}".`,
      `Write which one: ${versions.slice(0, 20).join(', ')}.`,
    );
  }
  const near = nearest(name, known);
  throw new UsageError(
    `No cue is called "${name}".`,
    near === null ? `The cues are ${known.slice(0, 20).join(', ')}.` : `Did you mean "${near}"?`,
  );
};
