import type { Diff, DiffInstrument, DiffPlace, DiffZone } from '../keep/compare/diff.ts';
import { csvText, listed, span, type CsvValue } from './csv.ts';

const header = [
  'action',
  'machine',
  'instrument',
  'copy',
  'articulations',
  'zone',
  'key',
  'keys',
  'velocities',
  'controllers',
  'samples',
] as const;

/** A row for each zone to unload or to load, in each copy that has its own. */
export const diffCsv = ({ instruments }: Diff): string =>
  csvText(header, instruments.flatMap(rowsOf));

const rowsOf = ({ id, machine, copies }: DiffInstrument): readonly (readonly CsvValue[])[] =>
  copies.flatMap(({ name, load, unload }) => {
    const row = (action: string, on: string | null, zone: DiffZone): readonly CsvValue[] => [
      action,
      on,
      id,
      name,
      listed(zone.articulations),
      zone.zone,
      zone.key,
      ...(zone.place === null ? [null, null, null] : placeCells(zone.place)),
      listed(zone.samples),
    ];
    return [
      ...unload.map((zone) => row('unload', machine.from, zone)),
      ...load.map((zone) => row('load', machine.to, zone)),
    ];
  });

const placeCells = ({ keys, velocities, controllers }: DiffPlace): readonly CsvValue[] => [
  listed(keys.map(span)),
  velocities === null ? null : span(velocities),
  listed(controllers.map(({ number, range }) => `CC${String(number)} ${span(range)}`)),
];
