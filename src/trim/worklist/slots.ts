import type { Instrument } from '../../instruments/instrument.ts';
import { calibrate } from '../../memory/calibrate.ts';
import type { Calibration } from '../../memory/calibration.ts';
import { memoryOf } from '../../memory/loaded-memory.ts';
import type { ZoneMask } from '../../memory/zone-mask.ts';
import type { Plan, PlanInstrument } from '../../keep/plan.ts';
import type { Player } from '../../template/player.ts';
import type { Template } from '../../template/template.ts';

/** Copies of an instrument that are loaded and unloaded alike. */
export interface Slot {
  /** The only copy; null: several, or one that no cue plays. */
  readonly copy: string | null;
  /** Copies beyond those that stay, which no plan names: those of tracks that are audio already. */
  readonly isSpare: boolean;
  readonly count: number;
  /** Per zone, 1 where it stays. What only stops others stays too: nobody can unload half a zone. */
  readonly wanted: ZoneMask;
}

/** An instrument of the template with all of its copies. */
export interface SlottedInstrument {
  readonly instrument: Instrument;
  readonly planned: PlanInstrument;
  readonly machine: string;
  readonly player: Player;
  readonly calibration: Calibration;
  readonly slots: readonly Slot[];
}

/**
 * The instruments of a plan with their copies, in the order of the template.
 *
 * @param instruments by id; an instrument that is not there is left out
 */
export const slottedInstruments = (
  plan: Plan,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
): readonly SlottedInstrument[] => {
  const byId = new Map(plan.instruments.map((one) => [one.id, one]));
  return template.instruments.flatMap(({ id, machine, player, measured }): SlottedInstrument[] => {
    const [instrument, planned] = [instruments.get(id), byId.get(id)];
    if (instrument === undefined || planned === undefined) return [];
    const { calibration } = calibrate(instrument, player, measured, template.path);
    const one = { instrument, planned, machine, player, calibration };
    return [{ ...one, slots: slotsOf(one) }];
  });
};

const slotsOf = (one: Omit<SlottedInstrument, 'slots'>): readonly Slot[] => {
  const { instrument, planned } = one;
  const { copies, kept, shares } = planned;
  const index = new Map(instrument.zones.map(({ id }, zone) => [id, zone]));
  const mask = (ids: Iterable<number>): ZoneMask => {
    const made = new Uint8Array(instrument.zones.length);
    for (const id of ids) {
      const zone = index.get(id);
      if (zone !== undefined) made[zone] = 1;
    }
    return made;
  };
  const whole = mask(kept.map(({ zone }) => zone));
  if (shares === 'copy' && copies.length > 0) {
    const own = copies.map((copy): Slot => ({
      copy: copy.name,
      isSpare: false,
      count: 1,
      wanted: mask(copy.kept ?? []),
    }));
    return [...spareSlot(loadedCopies(one, own.length) - own.length, instrument), ...own];
  }
  const playing = shares === 'copy' ? 1 : copies.filter(({ zonesKept }) => zonesKept > 0).length;
  const staying = Math.max(1, playing);
  const loaded = loadedCopies(one, staying);
  // Where nothing stays, all of them go alike.
  const count = whole.includes(1) ? staying : loaded;
  return [
    ...spareSlot(loaded - count, instrument),
    { copy: null, isSpare: false, count, wanted: whole },
  ];
};

const spareSlot = (count: number, { zones }: Instrument): readonly Slot[] =>
  count <= 0 ? [] : [{ copy: null, isSpare: true, count, wanted: new Uint8Array(zones.length) }];

/** More copies than this are no template's. */
const mostCopies = 1_000_000;

/**
 * How many copies are loaded at first. A plan tells by its bytes alone: those of printed tracks count
 * there and are not listed. The least number that gives just these bytes; `least` where none does.
 */
const loadedCopies = (
  { instrument, planned, player, calibration }: Omit<SlottedInstrument, 'slots'>,
  least: number,
): number => {
  const zones = new Uint8Array(instrument.zones.length).fill(1);
  const wanted = planned.bytes.full;
  const bytes = (count: number): number =>
    memoryOf({ instrument, player, calibration, copies: [{ zones, count }] }).bytes;
  if (bytes(least) === wanted) return least;
  // One copy may be in a state that was read; from two on each copy adds the same, but for rounding.
  const each = bytes(least + 2) - bytes(least + 1);
  let count = least + 1;
  for (let tries = 0; tries < 8 && each > 0; tries++) {
    const missing = wanted - bytes(count);
    if (missing === 0) return count;
    count += Math.sign(missing) * Math.max(1, Math.round(Math.abs(missing) / each));
    if (count <= least || count > mostCopies) break;
  }
  return least;
};
