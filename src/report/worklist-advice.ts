import { keyName } from '../terms/key.ts';
import type { Worklist, WorklistAction } from '../trim/worklist/worklist.ts';
import type { Look } from './look.ts';
import { shellWord } from './shell-word.ts';
import { openActions } from './worklist-verdict.ts';
import { unknownSize } from './worklist-words.ts';

/** What the user named beside the keep file and the record. */
export interface WorklistNames {
  /** The template, where one was named. */
  readonly template?: string | undefined;
}

/** The record that is proposed where none was named. */
const proposedRecord = 'loaded.csv';

const commands = (list: Worklist, { template }: WorklistNames): readonly string[] => {
  const record = list.ledger === null ? proposedRecord : list.ledger.path;
  const rest = [
    ` --keep ${shellWord(list.keep.path)}`,
    ` --loaded ${shellWord(record)}`,
    ...(template === undefined ? [] : [` --template ${shellWord(template)}`]),
  ].join('');
  return [
    `Tick what is done: keepset worklist${rest} --done 3-7,12. --undo 4 takes a tick back.`,
    `Half way too: keepset check new-cue.mid${rest} holds a cue against what is loaded now.`,
  ];
};

/** Sizes that no figure holds. */
const unknownAdvice = ({ machines }: Worklist): readonly string[] =>
  machines.some(({ actions }) => actions.some(({ unknownSamples }) => unknownSamples > 0))
    ? [
        `${unknownSize}: samples of unknown size. All other figures leave them out, so the machine has more loaded than they say.`,
      ]
    : [];

/** Where samples go one by one, less stays than the keys and layers around it. */
const sampleAdvice = ({ machines }: Worklist): readonly string[] =>
  machines.some(({ actions }) => actions.some(isRoughly))
    ? [
        'Where a player unloads single samples, What stays names the outermost keys and layers. To keep all between them is safe, and frees less than the line says; --format json has the single zones.',
      ]
    : [];

const isRoughly = ({ does, keeps, unit }: WorklistAction): boolean =>
  does === 'unload' && keeps !== null && unit.grain === 'sample';

/** Manuals name keys in one of two ways, an octave apart. */
const keyAdvice = ({ middleC }: Look): string => {
  const name = keyName(60, middleC);
  return `Keys are named with middle C as ${name} (60). The manual of a library may say ${name === 'C4' ? 'C3' : 'C4'}: compare the number.`;
};

/** How to use the list without losing anything, in sentences. */
export const worklistAdvice = (
  list: Worklist,
  names: WorklistNames,
  look: Look,
): readonly string[] => {
  const digest = list.keep.sha256.slice(0, 12);
  const isDone = openActions(list) === 0;
  return [
    ...(isDone
      ? []
      : [
          'First save the full template under a name of its own and put it somewhere safe; then save what you make here as a new one. What you unload is in the full template and nowhere else.',
          'From the top to the bottom: what is to be loaded comes first, so that nothing the cues need is missing on the way.',
        ]),
    ...commands(list, names),
    isDone
      ? 'All sizes are estimates: the display of the player has the last word.'
      : 'All sizes are estimates: the display of the player has the last word. Write what it shows after a step under Seen, and into the column bytes of the record.',
    ...unknownAdvice(list),
    ...sampleAdvice(list),
    ...(isDone ? [] : [keyAdvice(look)]),
    `Made by the keep file with sha256 ${digest}. Plan again when a cue changes; steps keep their numbers in the record.`,
    ...(isDone ? ['Keep the full template somewhere safe.'] : []),
  ];
};
