import type { ReelMemory } from '../keep/reel/reel-memory.ts';
import type { Basis } from '../memory/loaded-memory.ts';
import { bullets } from './bullets.ts';
import { basisSign } from './figure-basis.ts';
import { plural } from './format.ts';
import type { Look } from './look.ts';
import { hasRange } from './memory-words.ts';

const explanation: Readonly<Record<Basis, string>> = {
  computed: 'computed from the sizes of the samples by the rule given for the player',
  fitted: "computed, then fitted to readings of the player's display",
  read: "read off the player's display with just this loaded",
};

const order: readonly Basis[] = ['computed', 'fitted', 'read'];

/**
 * What the figures rest on and how they go together.
 *
 * @param signs the tables show what each figure rests on
 * @param changes the tables show what is loaded from one cue, or group, to the next
 */
export const memoryAbout = (
  memory: ReelMemory,
  signs: boolean,
  changes: boolean,
  look: Look,
): readonly string[] => {
  const { instruments, machines } = memory;
  const needed = instruments.filter(({ high }) => high > 0);
  const bases = order.filter((basis) => needed.some((one) => one.basis === basis));
  const some = (basis: Basis): string => {
    const count = needed.filter((one) => one.basis === basis).length;
    return count === needed.length
      ? 'They are'
      : `${plural(count, 'instrument')} ${count === 1 ? 'is' : 'are'}`;
  };
  const sentences = [
    "All figures are estimates: the player's display has the last word, and readings of it bring them closer.",
    ...bases.map((basis) =>
      signs
        ? `${basisSign[basis]}: ${explanation[basis]}.`
        : `${some(basis)} ${explanation[basis]}.`,
    ),
    ...(machines.some(hasRange)
      ? ['Between: what it may be at the least and at the most. A machine fits when the most does.']
      : []),
    ...(changes
      ? [
          'To load: what is needed and was not before. May go: the reverse. Until it has gone, both are there together: where that is too much, unload first, then load.',
        ]
      : []),
    ...(look.details === true && memory.cue === null
      ? [
          'Most at a time: on each machine the cue that needs most there, and over all machines the one that needs most in all.',
          'What several cues need is loaded once: all cues at once take less than their sum.',
          'Samples that several instruments hold in common count in each instrument, and once in a machine.',
          'What is kept regardless (pins, headroom) is part of what each cue needs.',
          'The order of the cues is that of the reel, or the one that was given.',
        ]
      : []),
  ];
  return bullets(
    'What the figures mean',
    sentences.map((sentence) => [sentence]),
    look,
  );
};
