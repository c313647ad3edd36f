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

/** Where sizes come from. */
const origin = ({ instrument }: Inspection): string => {
  const { kind, samples, unknownSamples, seconds } = instrument;
  const rule = 'length x channels x bytes per sample point';
  if (kind !== 'outline') return `Sizes are those of the samples in the file, whole: ${rule}.`;
  if (unknownSamples === samples)
    return 'The outline gives neither lengths nor readings: no sizes.';
  return seconds === null
    ? `Sizes come from the outline: what was read off the player's display, spread evenly over the samples it was read for; where lengths are written, ${rule}.`
    : `Sizes are computed from the lengths that the outline gives, whole: ${rule}.`;
};

const loaded = (inspection: Inspection, look: Look): readonly string[] => {
  const { player, memory, instrument } = inspection;
  if (player === null || memory === null) {
    if (instrument.unknownSamples === instrument.samples) return [origin(inspection)];
    const depends =
      instrument.kind === 'outline' && instrument.seconds === null
        ? 'What was read is what that player holds; what it holds of lengths depends on it.'
        : 'What a player holds of them depends on the player.';
    return [`${origin(inspection)} ${depends}`];
  }
  const { bytes, low, high, basis } = memory;
  const [least, most] = [formatBytes(low), formatBytes(high)];
  const range = least === most ? '' : `, between ${least} and ${most}`;
  return [
    origin(inspection),
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
