import type { WhyFindings } from '../../terms/findings/whys.ts';
import { printable } from '../../terms/printable.ts';
import { words, type Wording } from './words.ts';

const things = {
  template: 'The template',
  instrument: 'The instrument',
  cues: 'The cues',
} as const;

const hints = {
  template: 'Name it with --template, or one instrument with --instrument.',
  instrument: 'Put it where the plan found it, or name it with --instrument.',
  cues: 'Name the cues that the plan was made from.',
} as const;

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, 4).map(printable).join(', ');
  return names.length > 4 ? `${shown} and ${String(names.length - 4)} more` : shown;
};

/** Asking why zones stay or went. */
export const whyWording: Wording<keyof WhyFindings> = {
  'why-without-cues': ({ instrument, missing }) =>
    words(
      `${things[missing]} of the plan ${missing === 'cues' ? 'are' : 'is'} not here, so ${
        missing === 'cues'
          ? 'it is not known what came nearest to needing'
          : 'only the keep file speaks: not what zones answer to, and not what came nearest to needing'
      } what was dropped of ${printable(instrument)}.`,
      hints[missing],
    ),
  'why-template-changed': () =>
    words(
      'The template has changed since the keep file was made: tracks may go to other instruments now, so no cue was played to find what came nearest.',
      'Plan again with this template, or name the one of the plan with --template.',
    ),
  'why-instrument-changed': ({ instrument }) =>
    words(
      `The definition of ${printable(instrument)} is not the one of the plan, so only the keep file speaks: not what zones answer to, and not what came nearest to needing those that went.`,
      'Plan again with this instrument, or put the one of the plan back.',
    ),
  'why-cues-changed': ({ changed, absent }) =>
    words(
      [
        ...(changed.length > 0 ? [`Not the cues of the plan: ${listed(changed)}.`] : []),
        ...(absent.length > 0 ? [`Not here: ${listed(absent)}.`] : []),
        'What came nearest was looked for in the other cues alone.',
      ].join(' '),
      changed.length > 0
        ? 'To learn what they need beyond the plan: keepset check.'
        : 'Put them back to ask all of the reel.',
    ),
};
