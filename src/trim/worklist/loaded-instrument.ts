import type { Instrument } from '../../instruments/instrument.ts';
import type { KeptZone, PlanArticulation, PlanCopy, PlanInstrument } from '../../keep/plan.ts';
import { zoneFacts } from '../../keep/zone-facts.ts';
import { memoryOf, partMemory } from '../../memory/loaded-memory.ts';
import type { LoadedInstrument } from '../../memory/loaded.ts';
import type { ZoneMask } from '../../memory/zone-mask.ts';
import type { LoadedZones } from './loaded-zones.ts';
import { copiesOf } from './machine-meter.ts';
import type { SlottedInstrument } from './slots.ts';

/** An instrument of a plan as if it kept what is loaded. */
export const loadedInstrument = (
  planned: PlanInstrument,
  one: SlottedInstrument,
  loaded: LoadedZones,
): PlanInstrument => {
  const { instrument, player, slots } = one;
  const { zones, program, presetZones } = instrument;
  // Spare copies are none that a cue could play.
  const own = slots.filter(({ isSpare }) => !isSpare).map((slot) => loaded.of(slot));
  const mask = zones.map((_, zone) => Number(own.some((each) => each[zone] === 1)));
  const anywhere = Uint8Array.from(mask);
  const indices = zones.map((_, zone) => zone);
  const kept = indices.filter((zone) => anywhere[zone] === 1);
  const before = new Map(planned.kept.map((zone) => [zone.zone, zone]));
  const now: LoadedInstrument = { ...one, copies: copiesOf(one, loaded) };
  const { bytes, low, high, basis } = memoryOf(now);
  return {
    ...planned,
    zonesKept: kept.length,
    samplesKept: new Set(kept.flatMap((zone) => zones[zone]!.samples)).size,
    bytes: { ...planned.bytes, kept: bytes, low, high, basis },
    copies: planned.copies.map((copy) => loadedCopy(copy, kept.length, one, loaded)),
    articulations: loadedArticulations(planned.articulations, instrument, anywhere, now),
    kept: kept.map((zone): KeptZone => {
      const known = before.get(zones[zone]!.id);
      return known !== undefined && !known.reasons.includes('mutes')
        ? known
        : { ...zoneFacts(instrument, player, zone), ...nobodyPlays };
    }),
    dropped: indices
      .filter((zone) => anywhere[zone] === 0)
      .map((zone) => zoneFacts(instrument, player, zone)),
    presetZones: [
      ...new Set(presetZones.filter((_, i) => anywhere[program.starts[i]!.zone] === 1)),
    ].sort((a, b) => a - b),
  };
};

const nobodyPlays = {
  reasons: ['grain'],
  doubts: [],
  notes: 0,
  cues: {},
  witnesses: [],
} as const satisfies Partial<KeptZone>;

const loadedCopy = (
  copy: PlanCopy,
  all: number,
  { instrument: { zones }, player, slots }: SlottedInstrument,
  loaded: LoadedZones,
): PlanCopy => {
  if (player.shares === 'machine') {
    // One that nothing was planned for is gone when the spare ones are.
    const spare = slots.find(({ isSpare }) => isSpare);
    const isThere =
      copy.zonesKept > 0 || spare === undefined || loaded.of(spare).includes(1) || copy.notes > 0;
    return { ...copy, zonesKept: isThere ? all : 0 };
  }
  const slot = slots.find((each) => each.copy === copy.name);
  if (slot === undefined) return copy;
  const mask = loaded.of(slot);
  const kept = zones.flatMap(({ id }, zone) => (mask[zone] === 1 ? [id] : []));
  return { ...copy, zonesKept: kept.length, kept, muted: [] };
};

const loadedArticulations = (
  planned: readonly PlanArticulation[],
  { articulations, program, zones }: Instrument,
  anywhere: ZoneMask,
  now: LoadedInstrument,
): readonly PlanArticulation[] =>
  planned.map((one, i): PlanArticulation => {
    const part: ZoneMask = new Uint8Array(zones.length);
    for (const { articulation, zone } of program.starts) if (articulation === i) part[zone] = 1;
    const count = (some: readonly number[]): number =>
      some.filter((zone) => part[zone] === 1 && anywhere[zone] === 1).length;
    const layers = articulations[i]?.layers ?? [];
    return {
      ...one,
      layers: one.layers.map((layer, l) => ({
        ...layer,
        zonesKept: count(layers[l]?.zones ?? []),
      })),
      zonesKept: count(zones.map((_, zone) => zone)),
      bytes: { full: one.bytes.full, kept: partMemory(now, part) },
    };
  });
