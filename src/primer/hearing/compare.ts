import type { Instrument } from '../../instruments/instrument.ts';
import { keptZones } from '../../keep/check/kept-zones.ts';
import type { PlanInstrument } from '../../keep/plan.ts';
import type { ZoneMask } from '../../memory/zone-mask.ts';
import type { WitnessPlace } from '../../playback/zone-usage.ts';
import type { HeardCopy } from './hear.ts';

/** A zone of a copy, or of all copies where they share what they load. */
export interface CopyZone {
  readonly copy: string | null;
  /** Index into the instrument's zones. */
  readonly zone: number;
}

/** What a cue loads of an instrument, held against a plan. */
export interface Compared {
  /** Zones that stay with their samples, in each copy where copies have their own. */
  readonly zones: number;
  readonly loaded: readonly CopyZone[];
  readonly missing: readonly CopyZone[];
  /** What is loaded and does not stay, with a note that does it. */
  readonly needless: readonly (CopyZone & { readonly at: WitnessPlace })[];
}

/** What stays of an instrument with its samples: by copy, or once for all of them. */
export const stayingZones = (
  instrument: Instrument,
  planned: PlanInstrument,
): readonly { readonly copy: string | null; readonly kept: ZoneMask }[] => {
  const { byCopy, loaded, anywhere } = keptZones(instrument, planned);
  if (!byCopy) return [{ copy: null, kept: anywhere }];
  return planned.copies.map(({ name }) => ({ copy: name, kept: loaded(name) }));
};

/** @param heard the copies that the cue plays */
export const compareLoaded = (
  instrument: Instrument,
  planned: PlanInstrument,
  heard: readonly HeardCopy[],
): Compared => {
  const { byCopy, loaded: keptBy } = keptZones(instrument, planned);
  const loaded: CopyZone[] = [];
  const missing: CopyZone[] = [];
  for (const { copy, kept } of stayingZones(instrument, planned)) {
    const own = heard.filter((one) => copy === null || one.copy === copy);
    kept.forEach((stays, zone) => {
      if (stays === 0) return;
      const isThere = own.some(({ plain }) => plain.has(zone));
      (isThere ? loaded : missing).push({ copy, zone });
    });
  }
  const needless = new Map<string, CopyZone & { readonly at: WitnessPlace }>();
  for (const { copy, loads } of heard) {
    const kept = keptBy(copy);
    for (const [zone, at] of loads) {
      const name = byCopy ? copy : null;
      const key = JSON.stringify([name, zone]);
      if (kept[zone] === 0 && !needless.has(key)) needless.set(key, { copy: name, zone, at });
    }
  }
  return {
    zones: loaded.length + missing.length,
    loaded,
    missing,
    needless: [...needless.values()].sort((a, b) => a.zone - b.zone),
  };
};
