import { writeActionKey } from './action-key.ts';
import type { LedgerEntry } from './ledger/ledger.ts';
import { LoadedZones } from './loaded-zones.ts';
import { MachineMeter } from './machine-meter.ts';
import type { Slot, SlottedInstrument } from './slots.ts';
import type { Step } from './steps.ts';
import type { WorklistAction, WorklistMachine } from './worklist.ts';

/** A step with its number. */
export interface NumberedStep {
  readonly step: Step;
  readonly entry: LedgerEntry;
}

/**
 * The lines of one machine, with what it holds after each of them.
 *
 * @param instruments those of the machine
 * @param loaded what is loaded now; changed as the steps are taken
 */
export const machineList = (
  { id, budget }: Pick<WorklistMachine, 'id' | 'budget'>,
  instruments: readonly SlottedInstrument[],
  steps: readonly NumberedStep[],
  loaded: LoadedZones,
): WorklistMachine => {
  const full = new MachineMeter(instruments, new LoadedZones(instruments)).figure.bytes;
  const meter = new MachineMeter(instruments, loaded);
  const now = meter.figure.bytes;
  let total = now;
  const actions = steps.map(({ step, entry }): WorklistAction => {
    const { instrument: one, slot, key, zones, unit, keeps } = step;
    const before = usedSamples(one, slot, loaded);
    loaded.set(slot, zones, key.does);
    const after = usedSamples(one, slot, loaded);
    const changed = one.instrument.samples.filter((_, sample) => before[sample] !== after[sample]);
    const last = total;
    meter.changed(one);
    total = meter.figure.bytes;
    return {
      number: entry.number,
      key: writeActionKey(key),
      does: key.does,
      instrument: one.instrument.id,
      copy: slot.copy,
      spareCopies: slot.isSpare ? slot.count : 0,
      unit,
      zones: zones.map((zone) => one.instrument.zones[zone]!.id).sort((a, b) => a - b),
      samples: changed.length,
      unknownSamples: changed.filter(({ present }) => !present).length,
      keeps,
      frees: last - total,
      total,
      seen: entry.seen,
      note: entry.note,
    };
  });
  return { id, budget, bytes: { full, now, after: total }, actions };
};

/** Per sample, 1 where it is loaded in a slot; where copies share them, in all of the instrument. */
const usedSamples = (
  { instrument: { zones, samples }, player, slots }: SlottedInstrument,
  slot: Slot,
  loaded: LoadedZones,
): Uint8Array => {
  const used = new Uint8Array(samples.length);
  for (const one of player.shares === 'machine' ? slots : [slot]) {
    loaded.of(one).forEach((isLoaded, zone) => {
      if (isLoaded === 1) for (const sample of zones[zone]!.samples) used[sample] = 1;
    });
  }
  return used;
};
