import { everyArticulation, type Instrument } from '../instruments/instrument.ts';
import { settledAsPlain } from '../keep/decision.ts';
import { openStarts } from '../keep/key-map/open-starts.ts';
import type { Plan, PlanInstrument, PlanSettings } from '../keep/plan.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { Template } from '../template/template.ts';
import { doubtNames } from '../terms/doubt.ts';
import { changedOnTheWay } from './changed-on-the-way.ts';
import { copiesOf, heldCopies, playableInCopies } from './in-copies.ts';
import type { MadeMap } from './maps.ts';
import type { OverviewArticulation, OverviewInstrument } from './overview-instrument.ts';
import type { Overview } from './overview.ts';

/**
 * @param machine index of its machine
 * @param files usage of the cues of the plan
 * @param counted what is told of it beside that
 */
export const overviewInstrument = (
  own: PlanInstrument,
  instrument: Instrument,
  machine: number,
  pins: PlanSettings['pins'],
  made: MadeMap,
  files: readonly FileUsage[],
  template: Template,
  counted: Pick<OverviewInstrument, 'otherNotes' | 'microphones'>,
): OverviewInstrument => {
  const { id, source, player, unloads, zones, zonesKept, samples, samplesKept, bytes } = own;
  const context = {
    program: instrument.program,
    isOpen: openStarts(instrument, own),
    excluded: settledAsPlain(own.settle),
  };
  const held = heldCopies(id, files);
  const asked = copiesOf(instrument, own, held);
  const everywhere =
    made.map.articulations.find(({ name }) => name === everyArticulation)?.rows ?? [];
  return {
    ...{ id, source, machine, player, unloads, zones, zonesKept, samples, samplesKept, bytes },
    notes: own.copies.reduce((sum, { notes }) => sum + notes, 0),
    copies: own.copies.map((copy) => ({
      name: copy.name,
      notes: copy.notes,
      zonesKept: copy.zonesKept,
      articulation: held.get(copy.name) ?? null,
    })),
    changes: changedOnTheWay(template, id),
    ...counted,
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

/** Doubts for which an instrument keeps anything. */
const doubtsOf = ({ kept, settle }: PlanInstrument): OverviewInstrument['doubts'] => {
  const counts = new Map<string, number>();
  for (const { reasons } of kept) {
    for (const reason of reasons) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  }
  return doubtNames.flatMap((name) =>
    counts.has(name)
      ? [{ name, zones: counts.get(name)!, settled: settle[name] === 'accept' ? 'accept' : null }]
      : [],
  );
};

/** Where each doubt keeps something, and where it was answered, by index. */
export const doubtsAt = (
  instruments: readonly Pick<OverviewInstrument, 'doubts'>[],
  plan: Pick<Plan, 'instruments'>,
): Overview['doubtsAt'] =>
  doubtNames.flatMap((name) => {
    const at = (settled: 'accept' | null): readonly number[] =>
      instruments.flatMap(({ doubts }, i) =>
        doubts.some((doubt) => doubt.name === name && doubt.settled === settled) ? [i] : [],
      );
    const plainly = plan.instruments.flatMap(({ settle }, i) =>
      settle[name] === 'plain' ? [i] : [],
    );
    const told = { name, instruments: at(null), accepted: at('accept'), plain: plainly };
    const isAnywhere = [told.instruments, told.accepted, told.plain].some(
      ({ length }) => length > 0,
    );
    return isAnywhere ? [told] : [];
  });
