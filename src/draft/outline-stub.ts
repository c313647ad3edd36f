import { keyName, keyRangeLabel } from '../terms/key.ts';
import { comment } from './comment.ts';
import { count, shownName } from './describe-group.ts';
import type { TrackGroup } from './group-tracks.ts';
import {
  stubArticulations,
  type SeenSwitches,
  type StubArticulation,
} from './stub-articulations.ts';
import { seenComments } from './write-instrument.ts';
import { scalar } from './yaml-text.ts';

/** Articulations that are written; beyond, the file would be too large to be read. */
const mostArticulations = 400;

/** What a person looks up for an articulation: the key, what it is, ways to write it. */
const lookUps: readonly (readonly [key: string, help: string, ...examples: string[]])[] = [
  ['sampled', 'The keys that were recorded:', 'C2..C6 every 3, or [C2, E2, G#2]'],
  ['stretch', 'Which keys a recording plays beside its own: up, down or nearest.'],
  [
    'layers',
    'Dynamics, by velocity or by a controller that fades them; only how many where the borders are not printed. Left out: one.',
    '{ velocity: [1-40, 41-127] }, { cc1: [0-63, 64-127] }, 3 or { cc1: 3 }',
  ],
  [
    'round-robins',
    'Takes that alternate, and how many of them are recordings of the keys around. 1: none. Left out: those of the keys beside it may be played, in doubt.',
    '4, or { count: 4, borrow: 2 }',
  ],
  ['seconds', 'How long one sample is, about.', '8'],
  [
    'releases',
    'Sounds at the end of notes, once the pedal is up too (at: release) or not (at: note-off). Left out: none.',
    'yes, or { seconds: 1.2, at: release }',
  ],
  [
    'legato',
    'Recorded transitions into these notes, from others that are held. Left out: none.',
    'yes, or { intervals: 12, seconds: 0.6, overlap: 80 ms, returns: yes }',
  ],
  [
    'measured',
    "What the player's display shows with this articulation alone loaded, and the microphones that the template names.",
    '1.2 GiB',
  ],
];

/** An example on a line of its own, never wrapped: it is to be copied. */
const example = (text: string, indent: number): string => `${' '.repeat(indent)}#   ${text}`;

/** What another manual may call key 60. */
const otherName = (middleC: number): string => (middleC === 4 ? 'C3' : 'C4');

const head = (instrument: string, group: TrackGroup, middleC: number): readonly string[] => [
  ...comment(
    `Keys here are written with middle C (key 60) as C${String(middleC)}. If the library's manual calls it ${otherName(middleC)}, draft again with --middle-c ${otherName(middleC)}, to another template and another folder: changing only the line below would move all keys by an octave.`,
  ),
  `middle-c: C${String(middleC)}`,
  '',
  ...comment(
    `An outline of "${instrument}": a library whose files can't be read, as far as its manual goes. It was drafted from what the tracks play. Fill it in line by line. A "?" counts as left out: as long as it is there, more stays loaded than has to, and some sizes are not known.`,
  ),
  '#',
  ...seenComments(group, middleC).flatMap((text) => comment(text)),
  '',
  ...comment(
    'How the samples are stored: 48000 or 44100 in a second, 24 or 16 bits, 2 for stereo. The page of the library usually says it.',
  ),
  'rate: "?"',
  'bits: "?"',
  'channels: "?"',
  '',
  ...comment(
    'Microphone positions, as the player calls them. Which of them are loaded is said in the template.',
  ),
  example('[close, tree, hall]', 0),
  'microphones: "?"',
  '',
  ...comment(
    "What the player's display shows for the instrument, with nothing loaded and with everything of the microphones that the template names: the surest figures there are, and quickly read.",
  ),
  example('0.6 GiB', 0),
  'measured:',
  '  empty: "?"',
  '  full: "?"',
];

const sectionComment = (articulations: readonly StubArticulation[]): readonly string[] => {
  const isSeen = articulations.some(({ presses }) => presses !== null);
  const isNamed = articulations.some(({ presses }) => presses === null);
  return [
    ...comment(
      'The articulations. Give each the name that the player shows, and add those that are missing: one that sounds before any switch is pressed above all. Of two that differ little, the second:',
    ),
    example('tremolo: { like: sustain, switch: C#1, seconds: 6 }', 0),
    ...comment(
      'Where the switches are a row of keys, it can stand above, in place of the switch lines; ~ skips a key:',
    ),
    example('switches: { from: C1, names: [sustain, ~, tremolo] }', 0),
    ...comment(
      'A line when: adds what must hold besides, or says that the player picks it by itself:',
    ),
    example('when: { velocity: 100-127 }, or when: player-decides', 0),
    ...(isSeen
      ? comment(
          'Keys that look like switches are a guess: short notes, well apart from the rest. Take away what is none.',
        )
      : []),
    ...(isSeen && isNamed
      ? comment(
          'Some may be there twice, by the name of a track and by a switch: put the switch to the name.',
        )
      : []),
  ];
};

const switchLines = (
  { presses }: StubArticulation,
  isFirst: boolean,
  middleC: number,
): readonly string[] => {
  if (presses !== null) {
    const { key, cue, bar, count: times } = presses;
    const pressed = `pressed ${count(times, 'time')}, first in ${shownName(cue)} bar ${String(bar)}`;
    return [
      ...comment(`key ${String(key)}: ${pressed}`, 4),
      `    switch: ${keyName(key, middleC)}`,
    ];
  }
  const help =
    'What selects it: a key (C1), program 5, "cc 32: 0-20" or channel 3; none: it always sounds.';
  return [...(isFirst ? comment(help, 4) : []), '    switch: "?"'];
};

const keyLines = (
  { keys }: StubArticulation,
  isFirst: boolean,
  middleC: number,
): readonly string[] => {
  if (keys === null) return ['    keys: "?"'];
  const [lo, hi] = keys.map((key) => keyName(key, middleC));
  const range = `played: ${keyRangeLabel(keys, middleC)}`;
  return [
    ...comment(isFirst ? `${range}. Widen it to what the library has.` : range, 4),
    `    keys: ${lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`}`,
  ];
};

/** Only the first has the explanations. */
const articulationLines = (
  one: StubArticulation,
  at: number,
  middleC: number,
): readonly string[] => [
  ...(at === 0 ? [] : ['']),
  `  ${scalar(one.name)}:`,
  ...switchLines(one, at === 0, middleC),
  ...keyLines(one, at === 0, middleC),
  ...lookUps.flatMap(([key, help, ...examples]) => [
    ...(at === 0 ? [...comment(help, 4), ...examples.map((text) => example(text, 4))] : []),
    `    ${key}: "?"`,
  ]),
];

/**
 * The text of an outline for a drafted instrument: what the score shows is filled in, all the rest is
 * a `"?"` with a comment that says what to look up.
 *
 * @param instrument the id in the template
 * @param middleC the octave of key 60 in the outline
 */
export const outlineStub = (
  instrument: string,
  group: TrackGroup,
  seen: SeenSwitches,
  middleC: number,
): string => {
  const all = stubArticulations(group, seen, middleC);
  const more = all.length - mostArticulations;
  const written = all.slice(0, mostArticulations);
  return [
    ...head(instrument, group, middleC),
    '',
    ...sectionComment(written),
    'articulations:',
    ...written.flatMap((one, at) => articulationLines(one, at, middleC)),
    ...(more > 0 ? comment(`and ${String(more)} more`, 2) : []),
    '',
  ].join('\n');
};
