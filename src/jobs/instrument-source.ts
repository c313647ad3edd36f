import { parseInstrumentSource } from '../instruments/soundfont/source.ts';
import type { InstrumentSource } from '../template/template.ts';
import { UsageError } from '../terms/errors.ts';

/** How tables of separated values end; anything else is taken for a bank, whose reader looks inside. */
const table = /\.(?:csv|tsv|txt)$/i;

const sfz = /\.sfz$/i;

const outline = /\.ya?ml$/i;

/** How files of spreadsheet programs end. */
const spreadsheet = /\.(?:xlsx?|xlsm|ods)$/i;

/**
 * An instrument as it is named on the command line: `FILE.sf2`, `FILE.sf2#bank:program`, `FILE.sfz`,
 * `FILE.csv`, `FILE.yaml` for an outline.
 *
 * @param middleC the octave by which a zone table calls key 60; null or undefined: not said
 * @throws {UsageError} when it is not well named, or is a zone table without a middle C
 */
export const instrumentSource = (
  written: string,
  middleC: number | null | undefined,
): InstrumentSource => {
  const { path, preset } = parseInstrumentSource(written);
  if (spreadsheet.test(path)) {
    throw new UsageError(
      'A spreadsheet file can not be read as it is.',
      'Save it as CSV in your spreadsheet program, and name that file.',
    );
  }
  if (sfz.test(path)) {
    if (preset === null) return { kind: 'sfz', path };
    throw new UsageError('An SFZ file has no presets.', 'Leave out what follows the #.');
  }
  if (outline.test(path)) {
    if (preset === null) return { kind: 'outline', path };
    throw new UsageError('An outline has no presets.', 'Leave out what follows the #.');
  }
  if (!table.test(path)) return { kind: 'soundfont', path, preset };
  if (preset !== null) {
    throw new UsageError('A zone table has no presets.', 'Leave out what follows the #.');
  }
  if (middleC === null || middleC === undefined) {
    throw new UsageError(
      'Which octave does the table call key 60?',
      'Say it with --middle-c C4, C3 or C5: programs differ, and the file does not tell.',
    );
  }
  return { kind: 'zone-table', path, middleC };
};
