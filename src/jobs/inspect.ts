import { DiskFiles } from '../files/disk-files.ts';
import { inspectInstrument, type Inspection } from '../keep/inspect.ts';
import { calibrate } from '../memory/calibrate.ts';
import { memoryOf } from '../memory/loaded-memory.ts';
import { nearest } from '../notation/nearest.ts';
import type { InstrumentSource } from '../template/template.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { chooseTemplate, templateName } from './choose-template.ts';
import { instrumentSource } from './instrument-source.ts';
import { loadDeclared, loadInstrument } from './load-instruments.ts';

export interface InspectOptions {
  /**
   * `FILE.sf2`, `FILE.sf2#bank:program` for one preset, `FILE.sfz`, `FILE.csv` for a zone table, or
   * `FILE.yaml` for an outline; with a template one of its instruments, by id.
   */
  readonly instrument: string;
  /** A template that names the instrument and the player that loads it. */
  readonly template?: string;
  /** The octave by which a zone table calls key 60: 4 for C4. Others need none. */
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
  const files = options.files ?? new DiskFiles();
  if (options.template !== undefined) return inspectOf(files, options.template, options.instrument);
  if ((await isNoFile(files, options.instrument)) && (await files.info(templateName)) !== null) {
    return inspectOf(files, templateName, options.instrument);
  }
  const source = instrumentSource(options.instrument, options.middleC);
  return inspectInstrument(await loadInstrument(files, source), kindOf(source));
};

/** A name without an ending that names no file: with a template at hand, one of its instruments. */
const isNoFile = async (files: Files, name: string): Promise<boolean> =>
  !/[./\\#]/.test(name) && (await files.info(name)) === null;

/** An instrument of a template, with what its player makes of it in one copy. */
const inspectOf = async (disk: Files, path: string, id: string): Promise<Inspection> => {
  const { template, files } = await chooseTemplate(disk, { template: path });
  const own = template.instruments.find((one) => one.id === id);
  if (own === undefined) {
    const ids = template.instruments.map((one) => one.id);
    const near = nearest(id, ids);
    throw new UsageError(
      `The template has no instrument "${id}".`,
      near === null ? `There are ${ids.slice(0, 20).join(', ')}.` : `Did you mean "${near}"?`,
    );
  }
  const instrument = {
    ...(await loadDeclared(files, own, path)),
    id,
    source: own.written,
  };
  const { player } = own;
  const { calibration, findings } = calibrate(instrument, player, own.measured, path);
  const zones = new Uint8Array(instrument.zones.length).fill(1);
  const memory = memoryOf({ instrument, player, calibration, copies: [{ zones, count: 1 }] });
  const inspection = inspectInstrument(instrument, kindOf(own.source), {
    player: player.id,
    memory,
  });
  return { ...inspection, findings: [...inspection.findings, ...findings] };
};

const kindOf = (source: InstrumentSource) => {
  if (source.kind === 'zone-table') return 'zone table';
  if (source.kind === 'outline') return 'outline';
  if (source.kind === 'sfz') return 'sfz instrument';
  return source.preset === null ? 'soundfont bank' : 'soundfont preset';
};
