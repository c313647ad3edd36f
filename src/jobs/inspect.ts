import { DiskFiles } from '../files/disk-files.ts';
import { parseInstrumentSource } from '../instruments/soundfont/source.ts';
import { inspectInstrument, type Inspection } from '../keep/inspect.ts';
import type { InstrumentSource } from '../template/template.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
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
  const source = sourceOf(options.instrument, options.middleC ?? null);
  const instrument = await loadInstrument(options.files ?? new DiskFiles(), source);
  return inspectInstrument(instrument, kindOf(source));
};

/** How tables of separated values end; anything else is taken for a bank, whose reader looks inside. */
const table = /\.(?:csv|tsv|txt)$/i;

const sourceOf = (text: string, middleC: number | null): InstrumentSource => {
  const { path, preset } = parseInstrumentSource(text);
  if (!table.test(path)) return { kind: 'soundfont', path, preset };
  if (preset !== null) {
    throw new UsageError('A zone table has no presets.', 'Leave out what follows the #.');
  }
  if (middleC === null) {
    throw new UsageError(
      'Which octave does the table call key 60?',
      'Say it with --middle-c C4, C3 or C5: programs differ, and the file does not tell.',
    );
  }
  return { kind: 'zone-table', path, middleC };
};

const kindOf = (source: InstrumentSource) => {
  if (source.kind === 'zone-table') return 'zone table';
  return source.preset === null ? 'soundfont bank' : 'soundfont preset';
};
