import { largestTable } from '../../notation/csv.ts';
import type { Files } from '../../terms/files.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { fileName } from '../file-name.ts';
import type { Articulation, Instrument, Zone } from '../instrument.ts';
import { readColumns } from './columns.ts';
import { compileTable, type PlacedZone } from './compile.ts';
import { Faults } from './faults.ts';
import { layersOf } from '../layers.ts';
import { microphoneNames } from './microphones.ts';
import { remarksOn } from './remarks.ts';
import { readRows } from './rows.ts';
import { switchLabel } from '../switch-label.ts';
import { gatherArticulations, type TableArticulations } from './table-articulations.ts';
import { readTableFile } from './table-file.ts';
import { gatherSamples } from './table-samples.ts';
import { expandRow } from './zone-draft.ts';
import { nameZones } from './zone-keys.ts';

/** sha256 in hex of the parts in their order. */
type Digest = (parts: readonly Uint8Array[]) => string;

/**
 * Reads a zone table (design, section 8): a table of separated values whose rows are the zones of an
 * instrument that cannot be read itself.
 *
 * @param middleC the octave that the table calls key 60 by: 4 for C4
 * @throws {InputError} what `files.read` throws, and what {@link zoneTable} does
 */
export const readZoneTable = async (
  files: Files,
  path: string,
  middleC: number,
  digest: Digest,
): Promise<Instrument> =>
  zoneTable(await files.read(path, 0, largestTable + 1), path, middleC, digest);

/**
 * An instrument from the bytes of a zone table.
 *
 * @param digest also told the middle C: the same table under another one is another instrument
 * @throws {InputError} when it is no table or not sound as one, when a column is missing, or with up to
 *   20 cells that cannot be read, each with its line and column
 */
export const zoneTable = (
  bytes: Uint8Array,
  path: string,
  middleC: number,
  digest: Digest,
): Instrument => {
  const table = readTableFile(path, bytes);
  const faults = new Faults(path);
  const { columns, findings } = readColumns(path, table.rows[0]!, faults);
  faults.check();
  const rows = readRows(table, columns, middleC, faults);

  const articulations = gatherArticulations(rows, faults);
  const zonesOfRow = rows.map(expandRow);
  const names = nameZones(rows, zonesOfRow, faults);
  const samples = gatherSamples(rows, names, faults);
  faults.check();

  const microphone = microphoneNames();
  const placed = rows.flatMap((row, i) =>
    zonesOfRow[i]!.map((zone): PlacedZone => ({
      zone,
      row,
      articulation: articulations.ofRow[i]!,
    })),
  );
  const sampleOf = samples.ofZone.flat();
  const keyOf = names.flat();
  return {
    id: fileName(path),
    source: path,
    sha256: digest([new TextEncoder().encode(`zone table, middle C ${String(middleC)}\n`), bytes]),
    playedAs: 'single',
    zones: placed.map(({ zone }, id): Zone => ({
      id,
      samples: [sampleOf[id]!],
      group: 0,
      key: keyOf[id]!,
      microphone: microphone(zone),
    })),
    samples: samples.all,
    articulations: articulationsOf(placed, articulations),
    program: compileTable(placed, articulations),
    presetZones: [],
    findings: [
      ...encodingRemark(path, table.encoding),
      ...findings,
      ...remarksOn(path, rows, articulations.all, middleC),
    ],
  };
};

const articulationsOf = (
  placed: readonly PlacedZone[],
  { all }: TableArticulations,
): readonly Articulation[] => {
  const zones = all.map((): (readonly [number, PlacedZone['zone']])[] => []);
  placed.forEach(({ zone, articulation }, number) => zones[articulation]!.push([number, zone]));
  return all.map(({ name, switch: test }, i) => ({
    name,
    switch: test === null ? null : switchLabel(test),
    layers: layersOf(zones[i]!),
  }));
};

/** Names with accents may be wrong where the table does not say how it writes them. */
const encodingRemark = (path: string, encoding: string): readonly Finding[] =>
  encoding === 'windows-1252' ? [finding('warning', 'table-encoding', path, {})] : [];
