import { toRanges } from '../../terms/range.ts';
import type { ActionKey } from './action-key.ts';
import { keptPart } from './kept-part.ts';
import type { LoadedZones } from './loaded-zones.ts';
import { partsOf, wholePart, type Part } from './parts.ts';
import type { Slot, SlottedInstrument } from './slots.ts';
import type { KeptPart, WorklistUnit } from './worklist.ts';
import { zoneFingerprint } from './zone-fingerprint.ts';

/** What is left to do with one part of one slot. */
export interface Step {
  readonly key: ActionKey;
  readonly instrument: SlottedInstrument;
  readonly slot: Slot;
  readonly unit: WorklistUnit;
  /** Indices of zones, ascending. */
  readonly zones: readonly number[];
  readonly keeps: KeptPart | null;
}

/** What lies between what is loaded and what is wanted: all that is to be loaded, then the rest. */
export const stepsOf = (
  instruments: readonly SlottedInstrument[],
  loaded: LoadedZones,
): readonly Step[] =>
  (['load', 'unload'] as const).flatMap((does) =>
    instruments.flatMap((one) => one.slots.flatMap((slot) => slotSteps(does, one, slot, loaded))),
  );

const slotSteps = (
  does: 'load' | 'unload',
  one: SlottedInstrument,
  slot: Slot,
  loaded: LoadedZones,
): readonly Step[] => {
  const { instrument, player } = one;
  const now = loaded.of(slot);
  const isMeant = (zone: number): boolean =>
    now[zone] !== slot.wanted[zone] && (now[zone] === 0) === (does === 'load');
  // Of a copy of which nothing stays there are no parts to think about.
  const isWhole = does === 'unload' && !slot.wanted.includes(1);
  const parts = isWhole ? [wholePart(instrument)] : partsOf(instrument, player.unloads);
  const taken = new Set<number>();
  return parts.flatMap((part): readonly Step[] => {
    // What several parts hold goes with the first of them.
    const zones = part.zones.filter((zone) => isMeant(zone) && !taken.has(zone));
    if (zones.length === 0) return [];
    for (const zone of zones) taken.add(zone);
    const staying = stayingZones(does, one, slot, part);
    return [
      {
        key: keyOf(does, one, slot, part, zones),
        instrument: one,
        slot,
        unit: part.unit,
        zones,
        keeps: keptPart(instrument, part, staying),
      },
    ];
  });
};

/**
 * Zones of a part that are wanted. Where the player lets go of whole parts and another one that stays
 * holds a zone too, that part tells of it: of this one nothing stays.
 */
const stayingZones = (
  does: 'load' | 'unload',
  { instrument, player }: SlottedInstrument,
  { wanted }: Slot,
  part: Part,
): readonly number[] => {
  const staying = part.zones.filter((zone) => wanted[zone] === 1);
  if (does === 'load' || player.unloads === 'sample' || staying.length === 0) return staying;
  const held = new Set(
    partsOf(instrument, player.unloads)
      .filter(({ zones }) => zones.every((zone) => wanted[zone] === 1))
      .flatMap(({ zones }) => zones),
  );
  return staying.filter((zone) => !held.has(zone));
};

const keyOf = (
  does: 'load' | 'unload',
  { instrument }: SlottedInstrument,
  { copy, isSpare, count }: Slot,
  { unit }: Part,
  zones: readonly number[],
): ActionKey => ({
  does,
  instrument: instrument.id,
  copy,
  spare: isSpare ? count : 0,
  part: partNames(unit),
  zones: toRanges(zones.map((zone) => instrument.zones[zone]!.id)),
  fingerprint: zoneFingerprint(instrument),
});

const partNames = ({
  grain,
  articulations,
  layer,
  microphone,
}: WorklistUnit): readonly string[] => {
  if (grain === 'instrument' || (articulations.length === 0 && microphone === null)) return [];
  if (grain === 'microphone') return microphone === null ? [] : [microphone];
  if (layer === null) return articulations;
  const ranges = layer.controllers.map(
    ({ number, range: [lo, hi] }) => `cc ${String(number)} ${String(lo)}-${String(hi)}`,
  );
  const [lo, hi] = layer.velocity;
  return [...articulations, `velocity ${String(lo)}-${String(hi)}`, ...ranges];
};
