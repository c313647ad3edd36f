import type { LoadedCopies } from '../../memory/loaded.ts';
import { machineMemory } from '../../memory/machine-memory.ts';
import { figureSum, type Figure } from '../../memory/figure.ts';
import type { LoadedZones } from './loaded-zones.ts';
import type { SlottedInstrument } from './slots.ts';

/** What lies in a machine, measured again where something has changed. */
export class MachineMeter {
  readonly #groups: readonly (readonly SlottedInstrument[])[];
  readonly #figures: Figure[];
  readonly #loaded: LoadedZones;

  /** @param instruments those of one machine */
  constructor(instruments: readonly SlottedInstrument[], loaded: LoadedZones) {
    const groups = new Map<string, SlottedInstrument[]>();
    instruments.forEach((one, i) => {
      const { player, instrument } = one;
      const shared = ['shared', player.id, instrument.sha256];
      const key = JSON.stringify(player.shares === 'machine' ? shared : ['own', i]);
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [one]);
      else group.push(one);
    });
    this.#groups = [...groups.values()];
    this.#loaded = loaded;
    this.#figures = this.#groups.map((group) => this.#measure(group));
  }

  get figure(): Figure {
    return figureSum(this.#figures);
  }

  /** Measures an instrument again, and those that share its samples. */
  changed(one: SlottedInstrument): void {
    const at = this.#groups.findIndex((group) => group.includes(one));
    this.#figures[at] = this.#measure(this.#groups[at]!);
  }

  #measure(group: readonly SlottedInstrument[]): Figure {
    return machineMemory(group.map((one) => ({ ...one, copies: copiesOf(one, this.#loaded) })));
  }
}

/** The copies of an instrument as they are loaded. */
export const copiesOf = (
  { slots }: SlottedInstrument,
  loaded: LoadedZones,
): readonly LoadedCopies[] => {
  const copies = slots.map((slot) => ({ zones: loaded.of(slot), count: slot.count }));
  // As a plan measures the full template, so that rounding is the same.
  return copies.every(({ zones }) => !zones.includes(0))
    ? [{ zones: copies[0]!.zones, count: copies.reduce((sum, { count }) => sum + count, 0) }]
    : copies;
};
