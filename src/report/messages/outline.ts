import type { OutlineFindings } from '../../terms/findings/outlines.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, formatCount, plural } from '../format.ts';
import { listedNames } from './listed-names.ts';
import { words, type Wording } from './words.ts';
import { forExample } from './yaml-values.ts';

/** What the parts of an articulation are called. */
const partNames: Readonly<Record<string, string>> = {
  note: 'its notes',
  release: 'releases',
  legato: 'transitions',
};

const listOfParts = (parts: string): string =>
  parts
    .split(' ')
    .map((part) => partNames[part] ?? part)
    .join(' and ');

const withParts = (name: string, parts: string): string =>
  parts === '' ? name : `${name} (${listOfParts(parts)})`;

/** Reading outlines. */
export const outlineWording: Wording<keyof OutlineFindings> = {
  'outline-open': ({ count }) =>
    words(
      `${plural(count, 'question mark')} in this outline ${count === 1 ? 'is' : 'are'} still to be filled in.`,
      'What is not known is kept and counts as a doubt; each answer frees memory.',
    ),
  'outline-assumed': ({ articulations, rate, bits, channels }) =>
    words(
      `${plural(articulations, 'articulation')} have lengths but not all of the rest: 48 kHz is assumed for ${formatCount(rate)}, 24 bit for ${formatCount(bits)}, stereo for ${formatCount(channels)}.`,
      'Write rate, bits and channels at the top of the outline.',
    ),
  'outline-size-unknown': ({ articulations, parts, more }) =>
    words(
      `Nothing says how large these are, so their memory is not counted: ${listedNames(
        articulations.map((name, i) => withParts(name, parts[i] ?? '')),
        more,
      )}.`,
      [
        ...(more > 0 || articulations.some((_, i) => (parts[i] ?? '') === '')
          ? [
              'Load one alone in the player, read its display, and write what it shows: measured: 420 MiB.',
            ]
          : []),
        ...(parts.some((some) => some !== '')
          ? ['Of a part write how long its samples are, as in legato: { seconds: 0.6 }.']
          : []),
      ].join(' '),
    ),
  'outline-no-switch': ({ articulations, more }) =>
    words(
      `Nothing says what selects these, so every note in their range may: ${listedNames(articulations, more)}.`,
      'Write their switch (switch: C0), or switch: none for what always sounds.',
    ),
  'outline-no-articulations': () =>
    words(
      'This outline has no articulations.',
      `Write one line for each. ${forExample('articulations: { sustain: { keys: G2-E5, measured: 420 MiB } }')}`,
    ),
  'outline-too-many-zones': ({ zones, limit }) =>
    words(
      `This outline stands for ${formatCount(zones)} zones; more than ${formatCount(limit)} are not taken.`,
      'Describe less in detail: leave out legato intervals or sampled keys, or part it into two instruments.',
    ),
  'outline-too-many-starts': ({ limit }) =>
    words(
      `The zones of this outline start in more than ${formatCount(limit)} ways; no more are taken.`,
      'Describe less in detail: give the sampled keys, or leave out legato intervals.',
    ),
  'outline-too-large': ({ bytes, limit }) =>
    words(
      `This outline is ${formatBytes(bytes)} long; more than ${formatBytes(limit)} are not read.`,
      'Is this the right file?',
    ),
  'outline-unknown-articulation': ({ name, near, known }) =>
    words(
      `This outline has no articulation "${printable(name)}".`,
      near !== null
        ? `Did you mean ${printable(near)}?`
        : known.length === 0
          ? 'Write a line for it below articulations.'
          : `Write a line for it below articulations, or use one of those that are there: ${known.map(printable).join(', ')}.`,
    ),
  'outline-like-circle': ({ articulations }) =>
    words(
      `These are like each other in a circle, so none says what it is: ${articulations.map(printable).join(', ')}.`,
      'Write out one of them and take its like away.',
    ),
  'outline-name-taken': ({ name }) =>
    words(
      `An articulation cannot be called "${printable(name)}": readings of the display have that word for something else.`,
      'Give it another name, such as the full one of the manual.',
    ),
  'outline-switch-twice': ({ articulation, reason }) =>
    reason === 'player'
      ? words(
          `The player picks ${printable(articulation)} by itself (when: player-decides), and a switch is written for it too.`,
          'Take one of the two out.',
        )
      : words(
          `The articulation ${printable(articulation)} has a switch of its own and a place in the row of switches.`,
          'Take one of the two out; in the row ~ stands for a key that is left out.',
        ),
  'outline-row-beyond': ({ name, example }) =>
    words(
      `The row of switches goes beyond the highest key, 127: none is left for "${printable(name)}".`,
      `Check the key that the row begins from. ${forExample(example)}`,
    ),
  'outline-borrow': ({ count, borrow }) =>
    words(
      `Of ${plural(count, 'round robin')} ${formatCount(borrow)} cannot be borrowed: at least one is a recording of its own.`,
      'Write in count how many alternate on a key, and in borrow how many of those are recordings of keys around it.',
    ),
};
