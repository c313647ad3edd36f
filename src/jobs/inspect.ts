import { DiskFiles } from '../files/disk-files.ts';
import { inspectInstrument, type Inspection } from '../keep/inspect.ts';
import type { InstrumentSource } from '../template/template.ts';
import type { Files } from '../terms/files.ts';
import { instrumentSource } from './instrument-source.ts';
import { loadInstrument } from './load-instruments.ts';

export interface InspectOptions {
  /** `FILE.sf2`, `FILE.sf2#bank:program` for one preset, or `FILE.csv` for a zone table. */
  readonly instrument: string;
  /** The octave by which a zone table calls key 60: 4 for C4. Banks need none. */
  readonly middleC?: number | null;
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/**
 * Describes one instrument: zones, layers, articulations, keys and bytes.
 *
 * @throws {InputError} when it can't be read
 * @throws {UsageError} when it is not well named, or is a zone table without a middle C
 */
export const inspect = async (options: InspectOptions): Promise<Inspection> => {
  const source = instrumentSource(options.instrument, options.middleC);
  const instrument = await loadInstrument(options.files ?? new DiskFiles(), source);
  return inspectInstrument(instrument, kindOf(source));
};

const kindOf = (source: InstrumentSource) => {
  if (source.kind === 'zone-table') return 'zone table';
  return source.preset === null ? 'soundfont bank' : 'soundfont preset';
};
