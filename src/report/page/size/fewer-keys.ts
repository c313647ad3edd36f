import type { OverviewInstrument } from '../../../overview/overview-instrument.ts';
import type { Playable, PlayableStretch } from '../../../overview/overview-playable.ts';
import { numbersIn, toRanges, type Range } from '../../../terms/range.ts';

/** Pieces in which keys are still told one by one. */
const manyPieces = 12;

/** Something of it may be played, which is all that is said. */
const inPart: Omit<PlayableStretch, 'keys'> = {
  dynamics: [{ by: 'velocity', safe: [], all: [1, 127] }],
  together: [],
  dependsOn: [],
  releasesGone: false,
};

/** Stretches of keys with dynamics of their own that are still told one by one. */
const fewStretches = 3;

/** The keys that were played, from the lowest to the highest. */
export const playedKeysAround = (one: OverviewInstrument): OverviewInstrument => {
  return {
    ...one,
    articulations: one.articulations.map((articulation) => {
      const { keysPlayed } = articulation;
      const [first, last] = [keysPlayed[0], keysPlayed.at(-1)];
      const around =
        first === undefined || last === undefined ? [] : [[first[0], last[1]] as const];
      return { ...articulation, keysPlayed: around };
    }),
  };
};

/** Where dynamics differ in many ways from key to key, that they do is all that is told. */
export const dynamicsInPart = (one: OverviewInstrument): OverviewInstrument =>
  eachPlayable(one, (playable) => {
    if (playable.stretches.length <= fewStretches) return playable;
    const keys = playable.stretches.flatMap((stretch) => stretch.keys);
    const stretch: PlayableStretch = { keys: joinedRanges(keys), ...inPart };
    return { ...playable, stretches: [stretch] };
  });

/** Keys that lie in many pieces are told from the lowest to the highest, and nothing is promised of them. */
export const keysAround = (one: OverviewInstrument): OverviewInstrument =>
  eachPlayable(one, (playable) => {
    const sounding = playable.stretches.flatMap(({ keys }) => keys);
    if (playable.all.length + sounding.length <= manyPieces) return playable;
    const stretches = sounding.length === 0 ? [] : [{ keys: [around(sounding)], ...inPart }];
    return { ...playable, all: [around(playable.all)], stretches };
  });

/** What may be written, of all copies and of each that differs. */
const eachPlayable = (
  one: OverviewInstrument,
  change: (playable: Playable) => Playable,
): OverviewInstrument => ({
  ...one,
  articulations: one.articulations.map((articulation) => ({
    ...articulation,
    playable: change(articulation.playable),
    copies: articulation.copies.map((own) => ({ ...own, playable: change(own.playable) })),
  })),
});

const around = (ranges: readonly Range[]): Range => [
  Math.min(...ranges.map(([lo]) => lo)),
  Math.max(...ranges.map(([, hi]) => hi)),
];

/** As few ranges as it takes. */
const joinedRanges = (ranges: readonly Range[]): readonly Range[] => {
  const keys = ranges.flatMap(numbersIn);
  return toRanges(new Set(keys));
};
