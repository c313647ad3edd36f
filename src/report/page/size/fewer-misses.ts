import type { Overview } from '../../../overview/overview.ts';

/** Misses that data hold where there is little room. */
const fewMisses = 60;

/** Misses that a page shows: of the others nobody reads the bars there. */
const shownMisses = 12;

/** The first misses, the first of them with their bars; the others are counted. */
export const fewerMisses = (overview: Overview): Overview => {
  const { proof } = overview;
  const misses = proof.misses
    .slice(0, fewMisses)
    .map((miss, i) => (i < shownMisses ? miss : { ...miss, bars: [], doubtfulBars: [] }));
  const unlisted = proof.unlisted + proof.misses.length - misses.length;
  return { ...overview, proof: { ...proof, misses, unlisted } };
};
