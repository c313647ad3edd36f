import type { Overview } from '../../../overview/overview.ts';

/** Misses that data hold where there is little room. */
const fewMisses = 60;

/** The first misses; the others are counted. */
export const fewerMisses = (overview: Overview): Overview => {
  const { proof } = overview;
  const misses = proof.misses.slice(0, fewMisses);
  const unlisted = proof.unlisted + proof.misses.length - misses.length;
  return { ...overview, proof: { ...proof, misses, unlisted } };
};
