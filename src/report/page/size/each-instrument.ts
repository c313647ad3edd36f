import type { Overview, OverviewInstrument } from '../../../overview/overview.ts';

/** The overview with each instrument changed. */
export const eachInstrument = (
  overview: Overview,
  change: (one: OverviewInstrument) => OverviewInstrument,
): Overview => ({ ...overview, instruments: overview.instruments.map(change) });
