import type { OverviewInstrument } from '../../overview/overview-instrument.ts';

/** Articulations of which nothing can be written. */
export interface Lost {
  /** Loaded whole for their player's sake, while every track is held to something else. */
  readonly unasked: readonly string[];
  readonly gone: readonly string[];
}

/**
 * @param copies of which it is told; null: all of the instrument
 * @param gone articulations of which no zone that a note starts stays
 */
export const lostOf = (
  { articulations }: OverviewInstrument,
  copies: readonly string[] | null,
  gone: readonly string[],
): Lost => {
  const isLoaded = (name: string): boolean =>
    articulations.some((one) => one.name === name && one.zonesKept === one.zones);
  const unasked = copies === null ? gone.filter(isLoaded) : [];
  return { unasked, gone: gone.filter((name) => !unasked.includes(name)) };
};
