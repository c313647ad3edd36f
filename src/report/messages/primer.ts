import type { PrimerFindings } from '../../terms/findings/primers.ts';
import { printable } from '../../terms/printable.ts';
import { plural } from '../format.ts';
import { shellWord } from '../shell-word.ts';
import { listedNames } from './listed-names.ts';
import { words, type Wording } from './words.ts';

/** The first names, and how many more there are. */
const some = (names: readonly string[]): string =>
  listedNames(names.slice(0, 8), Math.max(0, names.length - 8));

const are = (cues: readonly string[], one: string, many: string): string =>
  `${cues.length === 1 ? 'Cue' : 'Cues'} ${some(cues)} ${cues.length === 1 ? one : many}`;

const it = ({ length }: readonly unknown[]): string => (length === 1 ? 'it' : 'them');

/** The option to type for each of a few cues. */
const typed = (option: string, cues: readonly string[]): string =>
  cues.length > 4
    ? `${option} ${shellWord(cues[0]!)}, and so on for each of them,`
    : cues.map((cue) => `${option} ${shellWord(cue)}`).join(' ');

/** The cue that makes players load the keep set. */
export const primerWording: Wording<keyof PrimerFindings> = {
  'primer-track-added': ({ track, cue }) =>
    track.trim() === ''
      ? words(
          `A track without a name is not in the export that the primer is built on; it stands at the end, as in cue ${printable(cue)}.`,
          'When you import the primer, put it where the track without a name of that cue belongs.',
        )
      : words(
          `Track "${printable(track)}" is not in the export that the primer is built on; it stands at the end, as in cue ${printable(cue)}.`,
          'Put it on the track of that name when you import the primer.',
        ),
  'primer-not-primed': ({ zones, instruments }) =>
    words(
      `The primer does not load ${plural(zones, 'zone')} of ${some(instruments)} that the plan keeps.`,
      `The report lists ${zones === 1 ? 'it' : 'them'}. Play the cues that need ${zones === 1 ? 'it' : 'them'} once before you save, or load ${zones === 1 ? 'it' : 'them'} by hand.`,
    ),
  'primer-damaged': ({ cues }) =>
    words(
      `${are(cues, 'is', 'are')} damaged: what the part that can not be read needs is unknown, and a primer would not load it. Nothing was written.`,
      `Export ${it(cues)} again and plan again. Or, after having looked at ${it(cues)}, type ${typed('--accept-damage', cues)} to go on all the same.`,
    ),
  'primer-partial': ({ cues }) =>
    words(
      `${are(cues, 'looks', 'look')} as if something were missing: what that would need is unknown, and a primer would not load it. Nothing was written.`,
      `Check the export. If nothing is missing, type ${typed('--accept-partial', cues)} to say so.`,
    ),
  'primer-unmapped': ({ tracks }) =>
    words(
      `No rule of the template takes ${plural(tracks, 'track')} with notes: what ${tracks === 1 ? 'it needs' : 'they need'} is unknown, and a primer would not load it. Nothing was written.`,
      `Add a rule for ${tracks === 1 ? 'it' : 'them'} and plan again. If ${tracks === 1 ? 'it plays' : 'they play'} none of these instruments, type --allow-unmapped to say so.`,
    ),
  'primer-template-changed': () =>
    words(
      'The template is not the one that the keep file was made with, or has been edited since: tracks may go to other instruments now. Nothing was written.',
      'Plan again with this template, or name the one of the plan: --template FILE.',
    ),
  'primer-instrument-changed': ({ instrument }) =>
    words(
      `The instrument ${printable(instrument)} is not as it was when the keep file was made. Nothing was written.`,
      'Put back what is missing or has changed, or plan again with the instrument as it is.',
    ),
  'primer-cue-changed': ({ cue }) =>
    words(
      `Cue ${printable(cue)} has changed since the keep file was made, and may need more now. Nothing was written.`,
      'Plan again with the cues as they are now, then make the primer.',
    ),
  'primer-keep-lacks': ({ instrument, zones }) =>
    words(
      `The keep file lacks ${plural(zones, 'zone')} of ${printable(instrument)} that its own cues need, so it has been edited. Nothing was written.`,
      'Plan again; to keep less, settle doubts or leave cues out there.',
    ),
  'primer-nothing': () =>
    words(
      'No sample stays by the plan, so there is nothing to load.',
      'Check the routes and the cues of the plan, and the machine if you named one.',
    ),
  'primer-no-base': ({ cue }) =>
    words(
      cue === null
        ? 'No cue of the plan can be read, so there is no export whose tracks the primer could have.'
        : `Cue ${printable(cue)} can not be read, so the primer can not have its tracks.`,
      cue === null
        ? 'Export the cues again and plan again.'
        : 'Name another cue with --base, or leave it out: then one is chosen.',
    ),
  'primer-unmet': () =>
    words(
      'Played through the template, the primer would load samples that the plan drops, whatever is taken out of it. Nothing was written.',
      'Unload by hand instead: keepset worklist. This is a fault of keepset: please report it.',
    ),
  'primer-tracks-unmapped': ({ tracks }) =>
    words(
      `No rule of the template takes ${tracks.length === 1 ? 'the track' : 'the tracks'} ${some(tracks)}: what ${tracks.length === 1 ? 'it plays' : 'they play'} loads nothing.`,
      'Give the tracks the names that they have in the primer, and export again.',
    ),
};
