import type { DroppedZone, KeptZone, Plan, PlanInstrument } from '../keep/plan.ts';
import { listed } from './csv.ts';
import { csvOf, doubtSets, notesByCue, placeColumns, type CsvColumn } from './csv-columns.ts';

interface Row {
  readonly instrument: PlanInstrument;
  readonly zone: KeptZone | DroppedZone;
  readonly state: 'kept' | 'dropped' | 'mutes';
  /** What only a zone that stays has. */
  readonly kept: KeptZone | null;
  /** Names of the copies that keep it, where each copy has its own. */
  readonly copies: readonly string[];
}

const columns: readonly CsvColumn<Row>[] = [
  { title: 'instrument', value: ({ instrument }) => instrument.id },
  { title: 'machine', value: ({ instrument }) => instrument.machine },
  { title: 'player', value: ({ instrument }) => instrument.player },
  { title: 'zone', value: ({ zone }) => zone.zone },
  { title: 'stable-name', value: ({ zone }) => zone.key },
  {
    title: 'articulations',
    value: ({ instrument, zone }) =>
      listed(zone.articulations.map((index) => instrument.articulations[index]?.name ?? '')),
  },
  { title: 'samples', value: ({ zone }) => listed(zone.samples) },
  { title: 'state', value: ({ state }) => state },
  { title: 'reasons', value: ({ kept }) => listed(kept?.reasons ?? []) },
  { title: 'doubts', value: ({ kept }) => doubtSets(kept?.doubts ?? []) },
  { title: 'notes', value: ({ kept }) => kept?.notes ?? null },
  { title: 'cues', value: ({ kept }) => notesByCue(kept?.cues ?? {}) },
  { title: 'bytes', value: ({ zone }) => zone.bytes },
  { title: 'copies', value: ({ copies }) => listed(copies) },
  ...placeColumns<Row>(({ kept }) => kept?.witnesses[0]),
];

const rowsOf = (instrument: PlanInstrument): readonly Row[] => {
  const keepers = instrument.copies.flatMap(({ name, kept, muted }) =>
    kept === null ? [] : [{ name, zones: new Set(kept), muted: new Set(muted) }],
  );
  const copiesOf = (zone: KeptZone, mutes: boolean): readonly string[] =>
    keepers
      .filter(({ zones }) => zones.has(zone.zone))
      .map(({ name, muted }) => (muted.has(zone.zone) && !mutes ? `${name} (mutes)` : name));
  return [
    ...instrument.kept.map((zone): Row => {
      const mutes = zone.reasons.includes('mutes');
      return {
        instrument,
        zone,
        state: mutes ? 'mutes' : 'kept',
        kept: zone,
        copies: copiesOf(zone, mutes),
      };
    }),
    ...instrument.dropped.map((zone): Row => ({
      instrument,
      zone,
      state: 'dropped',
      kept: null,
      copies: [],
    })),
  ];
};

/**
 * A plan with a row for each zone, kept ones first, in the order of its JSON. `state` is `mutes`
 * where a zone stays without its samples, and so in a copy that is marked with it; `bytes` are what its samples take in one copy, and what
 * other zones use too counts in each row.
 */
export const planCsv = ({ instruments }: Plan): string =>
  csvOf(columns, instruments.flatMap(rowsOf));
