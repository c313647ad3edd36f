import { expect } from 'vitest';
import { isStray } from '../../src/primer/synthesis/heard-steps.ts';
import { plain } from '../../src/terms/doubt.ts';
import type { Written } from './priming.ts';

/** The law: what is called primed is started for certain; nothing dropped is started. */
export const expectLawful = ({ synthesis, doubts }: Written): void => {
  synthesis.group.copies.forEach(({ kept, wanted, excluded }, copy) => {
    const primed = synthesis.primed[copy]!;
    const failed = synthesis.notPrimed[copy]!.map(({ zone }) => zone);
    expect([...primed, ...failed].sort((a, b) => a - b)).toEqual(wanted);
    for (const zone of primed) expect(doubts[copy]![zone]![0], `zone ${String(zone)}`).toBe(plain);
    doubts[copy]!.forEach((sets, zone) => {
      if (kept[zone] !== 1) expect(isStray(sets, excluded), `zone ${String(zone)}`).toBe(false);
    });
  });
};
