import type { Overview } from '../../../overview/overview.ts';
import type { OverviewInstrument } from '../../../overview/overview-instrument.ts';

/** The overview with each instrument changed. */
export const eachInstrument = (
  overview: Overview,
  change: (one: OverviewInstrument) => OverviewInstrument,
): Overview => ({ ...overview, instruments: overview.instruments.map(change) });
