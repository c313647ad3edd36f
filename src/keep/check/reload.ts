import type { Instrument } from '../../instruments/instrument.ts';
import type { Calibration } from '../../memory/calibration.ts';
import type { Figure } from '../../memory/figure.ts';
import type { LoadedInstrument } from '../../memory/loaded.ts';
import { machineMemory } from '../../memory/machine-memory.ts';
import type { ZoneMask } from '../../memory/zone-mask.ts';
import type { Player } from '../../template/player.ts';
import { plain } from '../../terms/doubt.ts';
import type { DoubtSets } from '../doubt-sets.ts';
import { keepSet, keptMask } from '../keep-set.ts';
import type { PlanInstrument } from '../plan.ts';
import type { FoundMiss } from './find-misses.ts';
import { unitsOf } from '../units.ts';
import type { KeptZones } from './kept-zones.ts';

/** An instrument of the keep file as it lies in its machine, and what would have to be loaded again. */
export interface Reloading {
  readonly instrument: Instrument;
  readonly player: Player;
  readonly calibration: Calibration;
  readonly machine: string;
  readonly planned: PlanInstrument;
  readonly keep: KeptZones;
  readonly misses: readonly FoundMiss[];
  /** How many copies get notes in the checked cues and were not loaded by the plan. */
  readonly added: number;
}

/** What loading something again takes. */
export interface Reload {
  /** More than with the keep file alone. */
  readonly bytes: number;
  readonly fits: boolean | null;
}

const reached: DoubtSets = [plain];
const never: DoubtSets = [];

/** Zones that come along when misses are loaded: what the player can't load apart from them. */
const closure = ({ instrument, player }: Reloading, misses: readonly FoundMiss[]): ZoneMask => {
  const sounding = misses.filter(({ silent }) => !silent);
  if (player.unloads === 'sample' && !hasPartners(instrument)) {
    const alone = new Uint8Array(instrument.zones.length);
    for (const { zone } of sounding) alone[zone] = 1;
    return alone;
  }
  const zones = new Set(sounding.map(({ zone }) => zone));
  const starts = new Set(sounding.flatMap((miss) => [...miss.starts]));
  const reach = {
    zones: instrument.zones.map((_, zone) => (zones.has(zone) ? reached : never)),
    starts: instrument.program.starts.map((_, start) => (starts.has(start) ? reached : never)),
    mutes: instrument.zones.map(() => never),
    widened: instrument.program.starts.map(() => never),
  };
  return keptMask(keepSet(instrument, reach, { excluded: plain, grain: player.unloads, pins: [] }));
};

const both = (a: ZoneMask, b: ZoneMask): ZoneMask => a.map((one, zone) => one | b[zone]!);

/** The instrument in memory with some of its misses loaded again. */
const loadedWith = (
  one: Reloading,
  misses: readonly FoundMiss[],
  withAdded: boolean,
): LoadedInstrument => {
  const { instrument, player, calibration, planned, keep } = one;
  const own = planned.copies.filter(({ zonesKept }) => zonesKept > 0);
  const added = withAdded ? one.added : 0;
  if (!keep.byCopy) {
    const loaded = keep.loaded('');
    const zones = misses.length === 0 ? loaded : both(loaded, closure(one, misses));
    const count = Math.max(1, own.length + added);
    return { instrument, player, calibration, copies: [{ zones, count }] };
  }
  const missing = new Map<string, FoundMiss[]>();
  for (const miss of misses) {
    const known = missing.get(miss.copy!);
    if (known === undefined) missing.set(miss.copy!, [miss]);
    else known.push(miss);
  }
  const names = [...new Set([...own.map(({ name }) => name), ...missing.keys()])];
  const copies = names.map((name) => {
    const some = missing.get(name);
    const loaded = keep.loaded(name);
    return { zones: some === undefined ? loaded : both(loaded, closure(one, some)), count: 1 };
  });
  // What no cue of the plan plays may stay for a pin: in one copy, which has no name.
  const unnamed = own.length === 0 ? [{ zones: keep.anywhere, count: 1 }] : [];
  return { instrument, player, calibration, copies: [...copies, ...unnamed] };
};

/** Memory of one machine under a keep file, and of anything loaded again on top. */
export class MachineReload {
  readonly kept: Figure;
  readonly reloaded: Figure;
  readonly #all: readonly Reloading[];
  readonly #budget: number | null;
  readonly #base: readonly LoadedInstrument[];
  readonly #known = new Map<string, Reload>();
  /** What the instruments that share with one take together, by its place. */
  readonly #before = new Map<number, Figure>();

  /**
   * @param all instruments of the machine that can be compared
   * @param apart what its other instruments take by the keep file
   */
  constructor(all: readonly Reloading[], budget: number | null, apart: Figure) {
    this.#all = all;
    this.#budget = budget;
    this.#base = all.map((one) => loadedWith(one, [], false));
    this.kept = plus(machineMemory(this.#base), apart);
    const again = machineMemory(all.map((one) => loadedWith(one, one.misses, true)));
    this.reloaded = plus(again, apart);
  }

  /** What one miss takes by itself. */
  of(one: Reloading, miss: FoundMiss): Reload {
    const at = this.#all.indexOf(one);
    const key = `${String(at)} ${miss.copy ?? ''} ${loadOf(one, miss)}`;
    let found = this.#known.get(key);
    if (found === undefined) this.#known.set(key, (found = this.#reload(at, miss)));
    return found;
  }

  /** Only instruments that share samples with this one can make a difference. */
  #reload(at: number, miss: FoundMiss): Reload {
    const one = this.#all[at]!;
    const { instrument, player, calibration, keep } = one;
    if (keep.byCopy) {
      // Copies that do not share add up: this one is enough.
      const loaded = keep.loaded(miss.copy!);
      const copyOf = (zones: ZoneMask): LoadedInstrument => ({
        ...{ instrument, player, calibration },
        copies: [{ zones, count: 1 }],
      });
      const now = copyOf(both(loaded, closure(one, [miss])));
      return this.#between(machineMemory([copyOf(loaded)]), machineMemory([now]));
    }
    const group = this.#base.filter(
      (other, i) =>
        i === at ||
        (player.shares === 'machine' &&
          other.instrument.sha256 === instrument.sha256 &&
          other.player.id === player.id),
    );
    let before = this.#before.get(at);
    if (before === undefined) this.#before.set(at, (before = machineMemory(group)));
    const now = loadedWith(one, [miss], false);
    const after = machineMemory(group.map((other) => (other === this.#base[at] ? now : other)));
    return this.#between(before, after);
  }

  #between(before: Figure, after: Figure): Reload {
    const high = this.kept.high - before.high + after.high;
    return {
      bytes: Math.max(0, after.bytes - before.bytes),
      fits: this.#budget === null ? null : high <= this.#budget,
    };
  }
}

const plus = (a: Figure, b: Figure): Figure => ({
  bytes: a.bytes + b.bytes,
  low: a.low + b.low,
  high: a.high + b.high,
});

/** Misses that load the same have the same figure: whole units of the player, where it has any. */
export const loadOf = ({ instrument, player }: Reloading, miss: FoundMiss): string => {
  const { zone, silent, starts } = miss;
  const byItself = player.unloads === 'sample' || silent || hasPartners(instrument);
  if (byItself) return `${String(silent)} ${String(zone)} ${[...starts].join(',')}`;
  const { ofStart } = unitsOf(instrument, player.unloads);
  return `units ${[...new Set([...starts].map((start) => ofStart[start]!))].sort((a, b) => a - b).join()}`;
};

const withPartners = new WeakMap<Instrument, boolean>();

/** Asked for every miss: looked up once. */
const hasPartners = (instrument: Instrument): boolean => {
  let found = withPartners.get(instrument);
  if (found === undefined) {
    found = instrument.samples.some(({ partner }) => partner !== null);
    withPartners.set(instrument, found);
  }
  return found;
};
