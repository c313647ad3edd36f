import type { TrimFindings } from '../../terms/findings/trims.ts';
import { printable } from '../../terms/printable.ts';
import { formatCount, plural } from '../format.ts';
import { shellWord } from '../shell-word.ts';
import { trimOutputWording } from './trim-output.ts';
import { words, type Wording } from './words.ts';

/** More names than this are only counted. */
const mostNames = 8;

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, mostNames).map(printable).join(', ');
  const rest = names.length - mostNames;
  return rest > 0 ? `${shown} and ${formatCount(rest)} more` : shown;
};

/** Options that are typed out in full; of more, the first shows how. */
const mostTyped = 4;

/** The option to type for each of the cues. */
const typed = (option: string, cues: readonly string[]): string =>
  cues.length > mostTyped
    ? `${option} ${shellWord(cues[0]!)}, and so on for each of them,`
    : cues.map((cue) => `${option} ${shellWord(cue)}`).join(' ');

const cuesAre = (cues: readonly string[], one: string, many: string): string =>
  cues.length === 1 ? `Cue ${listed(cues)} ${one}` : `Cues ${listed(cues)} ${many}`;

const themOf = ({ length }: readonly unknown[]): string => (length === 1 ? 'it' : 'them');

/** Smaller instruments. */
export const trimWording: Wording<keyof TrimFindings> = {
  'trim-damaged': ({ cues }) =>
    words(
      `${cuesAre(cues, 'is', 'are')} damaged: what the part that can not be read needs is unknown, so no instrument may be made smaller.`,
      `Export ${themOf(cues)} again, plan again, then trim. Or, after having looked at ${themOf(cues)}, type ${typed('--accept-damage', cues)} to go on all the same.`,
    ),
  'trim-partial': ({ cues }) =>
    words(
      `${cuesAre(cues, 'looks', 'look')} as if something were missing: what that would need is unknown, so no instrument may be made smaller.`,
      `Check the export. If nothing is missing, type ${typed('--accept-partial', cues)} to say so.`,
    ),
  'trim-unmapped': ({ tracks }) =>
    words(
      `No rule of the template takes ${plural(tracks, 'track')} with notes: what ${tracks === 1 ? 'it needs' : 'they need'} is unknown, so no instrument may be made smaller.`,
      `Add a rule for ${tracks === 1 ? 'it' : 'them'} and plan again. If ${tracks === 1 ? 'it plays' : 'they play'} none of these instruments, type --allow-unmapped to say so.`,
    ),
  'trim-template-changed': () =>
    words(
      'The template is not the one that the keep file was made with, or has been edited since: tracks may go to other instruments now. Nothing was written.',
      'Plan again with this template, or name the one of the plan: --template FILE.',
    ),
  'trim-instrument-changed': ({ instrument }) =>
    words(
      `The instrument ${printable(instrument)} is not as it was when the keep file was made: its definition was edited, or a sample of it is another or is not there. Nothing was written.`,
      'Put back what is missing or has changed, or plan again with the instrument as it is.',
    ),
  'trim-cue-changed': ({ cue }) =>
    words(
      `Cue ${printable(cue)} has changed since the keep file was made, and may need more now. Nothing was written.`,
      'Plan again with the cues as they are now, then trim.',
    ),
  'trim-unwritable': ({ instruments }) =>
    words(
      `No smaller instrument can be written for ${listed(instruments)}: a table says what ${instruments.length === 1 ? 'its' : 'their'} zones are, and the files of the instrument itself are not known.`,
      `Unload by hand what the plan drops of ${themOf(instruments)}: keepset why NAME --keep FILE tells it.`,
    ),
  'trim-unplayed': ({ instruments }) =>
    words(
      `Nothing of ${listed(instruments)} stays by the plan, so nothing of ${themOf(instruments)} is written.`,
      'Keep the full instrument if a cue is still to come, or pin what it needs and plan again.',
    ),
  'trim-nothing': () =>
    words(
      'There is nothing to write: no instrument of the plan that can be made smaller is played.',
      'Check the routes and the cues of the plan.',
    ),
  'trim-unmet': ({ instrument, zone, cue }) =>
    words(
      `The smaller ${printable(instrument)} does not do what the full one does: zone ${formatCount(zone)} is not reached as before${cue === null ? '' : ` in cue ${printable(cue)}`}. Nothing was written.`,
      'Keep using the full instrument. This is a fault of keepset: please report it.',
    ),
  'trim-more': ({ instrument, zones }) =>
    words(
      `The smaller ${printable(instrument)} still holds ${plural(zones, 'zone')} that a plan of it would drop.`,
      'Nothing is missing in it. That it is larger than it need be is a fault of keepset: please report it.',
    ),
  ...trimOutputWording,
};
