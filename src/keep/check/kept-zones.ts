import type { Instrument } from '../../instruments/instrument.ts';
import type { ZoneMask } from '../../memory/zone-mask.ts';
import type { PlanInstrument } from '../plan.ts';

/** What a keep file leaves loaded of an instrument, by copy. */
export interface KeptZones {
  /** Each copy has zones of its own: a copy that is not in the keep file has none. */
  readonly byCopy: boolean;
  /** Per zone, 1 where it stays with its samples. */
  readonly loaded: (copy: string) => ZoneMask;
  /** Per zone, 1 where it stays, with samples or without. */
  readonly kept: (copy: string) => ZoneMask;
  /** Per zone, 1 where any copy has it with its samples. */
  readonly anywhere: ZoneMask;
  /** True where a start of the program goes through what stays: in a bank, its preset zone. */
  readonly staysOpen: (start: number) => boolean;
}

/** @param instrument the definition that the keep file was made with: its zones have the same numbers */
export const keptZones = (
  { zones, presetZones }: Instrument,
  { kept, copies, shares, presetZones: open }: PlanInstrument,
): KeptZones => {
  const index = new Map(zones.map(({ id }, zone) => [id, zone]));
  const mask = (ids: Iterable<number>): ZoneMask => {
    const made = new Uint8Array(zones.length);
    for (const id of ids) made[index.get(id)!] = 1;
    return made;
  };
  const ways = new Set(open);
  const staysOpen = (start: number): boolean =>
    presetZones.length === 0 || ways.has(presetZones[start]!);
  const withSamples = kept.filter(({ reasons }) => !reasons.includes('mutes'));
  const anywhere = mask(withSamples.map(({ zone }) => zone));
  if (shares === 'machine') {
    const all = mask(kept.map(({ zone }) => zone));
    return { byCopy: false, loaded: () => anywhere, kept: () => all, anywhere, staysOpen };
  }
  const none = new Uint8Array(zones.length);
  const own = new Map(
    copies.map(({ name, kept: ids, muted }) => {
      const all = ids ?? [];
      const silent = new Set(muted);
      return [name, { all: mask(all), loaded: mask(all.filter((id) => !silent.has(id))) }];
    }),
  );
  return {
    byCopy: true,
    loaded: (copy) => own.get(copy)?.loaded ?? none,
    kept: (copy) => own.get(copy)?.all ?? none,
    anywhere,
    staysOpen,
  };
};
