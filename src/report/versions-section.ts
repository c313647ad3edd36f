import type { Plan, PlanVersions } from '../keep/plan.ts';
import { bullets } from './bullets.ts';
import { formatBytes, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';

/** Cues that came in several versions and what the older ones keep; nothing where there are none. */
export const versionsSection = ({ versions }: Plan, look: Look): readonly string[] =>
  bullets(
    'Versions',
    versions.map((one) => [sentence(one, look)]),
    look,
  );

const sentence = ({ cue, versions, zones, bytes }: PlanVersions, look: Look): string => {
  const named = versions
    .filter((id) => id !== cue)
    .map((id) => nameInText(id.slice(cue.length + 1), look));
  const others = named.length > 1 ? `${named.slice(0, -1).join(', ')} and ` : '';
  const all = [
    ...(versions.includes(cue) ? ['without a version'] : []),
    `in ${others}${named.at(-1) ?? ''}`,
  ].join(' and ');
  const one = versions.length === 2;
  const older = one ? 'the older one' : 'the older ones';
  const comes = `${nameInText(cue, look)} comes ${all}:`;
  return zones === 0 && bytes === 0
    ? `${comes} ${older} ${one ? 'keeps' : 'keep'} nothing that the reel does not need anyway.`
    : `${comes} ${older} ${one ? 'keeps' : 'keep'} ${plural(zones, 'zone')}, ${formatBytes(bytes)}. --newest lets ${zones === 1 ? 'it' : 'them'} go.`;
};
