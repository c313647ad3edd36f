import type { Inspection } from '../keep/inspect.ts';
import { keyName } from '../terms/key.ts';
import { bullets } from './bullets.ts';
import { formatBytes, plural } from './format.ts';
import { nounsOf } from './instrument-nouns.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';

const bases = {
  computed: 'computed from the sizes of the samples by the rule given for the player',
  fitted: "fitted to readings of the player's display",
  read: "read off the player's display",
} as const;

const loaded = ({ player, memory }: Inspection, look: Look): readonly string[] => {
  if (player === null || memory === null) {
    return [
      'Sizes are those of the samples in the file, whole: length x channels x bytes per sample point. What a player holds of them depends on the player.',
    ];
  }
  const { bytes, low, high, basis } = memory;
  const [least, most] = [formatBytes(low), formatBytes(high)];
  const range = least === most ? '' : `, between ${least} and ${most}`;
  return [
    'Sizes are those of the samples in the file, whole: length x channels x bytes per sample point.',
    `All of it in one copy takes ${formatBytes(bytes)}${range} in the player ${nameInText(player, look)}: ${bases[basis]}.`,
  ];
};

/** What the figures rest on. */
export const aboutInspection = (inspection: Inspection, look: Look): readonly string[] => {
  const { instrument, articulations } = inspection;
  const { many } = nounsOf(instrument);
  const takes = articulations.some(({ roundRobins }) => (roundRobins ?? 0) > 1);
  return bullets(
    'About these figures',
    [
      ...loaded(inspection, look),
      ...(instrument.unknownSamples === 0
        ? []
        : [`${plural(instrument.unknownSamples, 'sample')} of unknown size: not counted.`]),
      ...(articulations.length < 2
        ? []
        : [
            `A zone or sample that several ${many} use counts in each row, and once in the last; what none of them uses counts there only.`,
          ]),
      ...(instrument.kind === 'soundfont bank'
        ? ['A preset begins with the bank and program that select it.']
        : []),
      ...(takes
        ? [
            'Takes: the most zones that answer the same notes in the same way. They alternate, or sound at once.',
          ]
        : []),
      `Keys: middle C is ${keyName(60, look.middleC)} (60).`,
      ...(look.details === true || articulations.length === 0
        ? []
        : ['With --verbose the layers are listed too.']),
    ].map((sentence) => [sentence]),
    look,
  );
};
