import { everyArticulation, type Instrument } from '../instruments/instrument.ts';
import { settledAsPlain } from '../keep/decision.ts';
import { openStarts } from '../keep/key-map/open-starts.ts';
import type { PlanInstrument, PlanSettings } from '../keep/plan.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { doubtNames, type DoubtName } from '../terms/doubt.ts';
import { copiesOf, playableInCopies } from './in-copies.ts';
import type { MadeMap } from './maps.ts';
import type { OverviewArticulation, OverviewInstrument } from './overview-instrument.ts';

/**
 * @param machine index of its machine
 * @param files usage of the cues of the plan
 */
export const overviewInstrument = (
  own: PlanInstrument,
  instrument: Instrument,
  machine: number,
  pins: PlanSettings['pins'],
  made: MadeMap,
  files: readonly FileUsage[],
): OverviewInstrument => {
  const { id, source, player, unloads, zones, zonesKept, samples, samplesKept, bytes } = own;
  const context = {
    program: instrument.program,
    isOpen: openStarts(instrument, own),
    excluded: settledAsPlain(own.settle),
  };
  const asked = copiesOf(instrument, own, files);
  const everywhere =
    made.map.articulations.find(({ name }) => name === everyArticulation)?.rows ?? [];
  return {
    ...{ id, source, machine, player, unloads, zones, zonesKept, samples, samplesKept, bytes },
    notes: own.copies.reduce((sum, { notes }) => sum + notes, 0),
    copies: own.copies.map((copy) => ({
      name: copy.name,
      notes: copy.notes,
      zonesKept: copy.zonesKept,
    })),
    microphones: microphonesOf(instrument, own),
    doubts: doubtsOf(own),
    pins: pins.filter((pin) => pin.instrument === id).length,
    keys: made.map.keys,
    articulations: made.map.articulations.map(({ articulation, rows }, i): OverviewArticulation => {
      const planned = own.articulations[articulation]!;
      return {
        name: planned.name,
        switch: planned.switch,
        notes: planned.notes,
        keysPlayed: planned.keys,
        velocities: planned.velocities,
        zones: planned.zones,
        zonesKept: planned.zonesKept,
        bytes: planned.bytes,
        ...playableInCopies(
          rows,
          planned.name === everyArticulation ? context : { ...context, everywhere },
          asked,
        ),
        rows: made.rows[i]!,
      };
    }),
    witnesses: made.witnesses,
  };
};

const microphonesOf = (
  { zones }: Instrument,
  { kept }: PlanInstrument,
): OverviewInstrument['microphones'] => {
  const stays = new Set(kept.map(({ zone }) => zone));
  const found = new Map<string, { zones: number; zonesKept: number }>();
  for (const { id, microphone } of zones) {
    if (microphone === null) continue;
    const count = found.get(microphone) ?? { zones: 0, zonesKept: 0 };
    count.zones++;
    if (stays.has(id)) count.zonesKept++;
    found.set(microphone, count);
  }
  return [...found].map(([name, count]) => ({ name, ...count }));
};

/** Doubts for which an instrument keeps anything. */
const doubtsOf = ({ kept }: PlanInstrument): OverviewInstrument['doubts'] => {
  const counts = new Map<string, number>();
  for (const { reasons } of kept) {
    for (const reason of reasons) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  }
  return doubtNames.flatMap((name) =>
    counts.has(name) ? [{ name, zones: counts.get(name)! }] : [],
  );
};

/** Where each doubt keeps something, by index. */
export const doubtsAt = (
  instruments: readonly Pick<OverviewInstrument, 'doubts'>[],
): readonly { readonly name: DoubtName; readonly instruments: readonly number[] }[] =>
  doubtNames.flatMap((name) => {
    const at = instruments.flatMap(({ doubts }, i) =>
      doubts.some((doubt) => doubt.name === name) ? [i] : [],
    );
    return at.length === 0 ? [] : [{ name, instruments: at }];
  });
