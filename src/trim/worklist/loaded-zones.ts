import type { ZoneMask } from '../../memory/zone-mask.ts';
import type { Slot, SlottedInstrument } from './slots.ts';
import type { ActionKey } from './action-key.ts';
import { zoneFingerprint } from './zone-fingerprint.ts';

/** Why it can't be told to what of the template an action was done. */
export type Stale = 'instrument' | 'zones' | 'copies' | 'copy-gone';

/** What an action is about in the template at hand. */
export interface Target {
  readonly instrument: SlottedInstrument;
  readonly slots: readonly Slot[];
  /** Indices of zones. */
  readonly zones: readonly number[];
}

/** Finds what actions are about, by their keys. */
export class Targets {
  readonly #instruments: ReadonlyMap<string, SlottedInstrument>;
  readonly #zones = new Map<SlottedInstrument, ReadonlyMap<number, number>>();

  constructor(instruments: readonly SlottedInstrument[]) {
    this.#instruments = new Map(instruments.map((one) => [one.instrument.id, one]));
  }

  find({ instrument: id, copy, spare, zones, fingerprint }: ActionKey): Target | Stale {
    const instrument = this.#instruments.get(id);
    if (instrument === undefined) return 'instrument';
    // Under another definition the same numbers may be other zones.
    if (fingerprint !== zoneFingerprint(instrument.instrument)) return 'zones';
    const index = this.#zonesOf(instrument);
    const found: number[] = [];
    for (const [lo, hi] of zones) {
      // Before they are listed: a key may name more zones than there are in the world.
      if (hi - lo + 1 > index.size) return 'zones';
      for (let zone = lo; zone <= hi; zone++) {
        const at = index.get(zone);
        if (at === undefined) return 'zones';
        found.push(at);
      }
    }
    const { slots, player } = instrument;
    if (copy !== null && player.shares === 'machine') return 'copies';
    const isMeant = (slot: Slot): boolean =>
      spare > 0
        ? slot.isSpare && slot.count === spare
        : !slot.isSpare && (copy === null || slot.copy === copy);
    const meant = slots.filter(isMeant);
    // It may be there under another name, as its track may be.
    return meant.length === 0 ? 'copy-gone' : { instrument, slots: meant, zones: found };
  }

  #zonesOf(one: SlottedInstrument): ReadonlyMap<number, number> {
    let found = this.#zones.get(one);
    if (found === undefined) {
      found = new Map(one.instrument.zones.map(({ id }, zone) => [id, zone]));
      this.#zones.set(one, found);
    }
    return found;
  }
}

/** The zones that are loaded, by slot: everything at first. */
export class LoadedZones {
  readonly #masks = new Map<Slot, ZoneMask>();

  constructor(instruments: readonly SlottedInstrument[]) {
    for (const { slots } of instruments) {
      for (const slot of slots) this.#masks.set(slot, new Uint8Array(slot.wanted.length).fill(1));
    }
  }

  /** Per zone, 1 where it is loaded. */
  of(slot: Slot): ZoneMask {
    return this.#masks.get(slot)!;
  }

  /** Loads or unloads zones, by their indices; what is so already stays so. */
  set(slot: Slot, zones: readonly number[], does: 'load' | 'unload'): void {
    const mask = this.of(slot);
    for (const zone of zones) mask[zone] = does === 'load' ? 1 : 0;
  }
}
