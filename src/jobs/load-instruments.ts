import { sha256 } from '../files/digest.ts';
import type { Instrument } from '../instruments/instrument.ts';
import type { InstrumentSource, Template } from '../template/template.ts';
import { InputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Finding } from '../terms/finding.ts';

const digest = (parts: readonly Uint8Array[]): string => sha256(...parts);

/** Reads one instrument's definition, whatever its format; readers of others are not loaded. */
export const loadInstrument = async (
  files: Files,
  source: InstrumentSource,
): Promise<Instrument> => {
  switch (source.kind) {
    case 'soundfont': {
      const { readSoundFont } = await import('../instruments/soundfont/read.ts');
      return readSoundFont(files, source.path, source.preset, digest);
    }
    case 'sfz': {
      const { readSfz } = await import('../instruments/sfz/read.ts');
      return readSfz(files, source.path, digest);
    }
    case 'zone-table': {
      const { readZoneTable } = await import('../instruments/zone-table/read.ts');
      return readZoneTable(files, source.path, source.middleC, digest);
    }
  }
};

/**
 * Reads every instrument of a template, in its order; a file that several name is read once.
 *
 * @throws {InputError} when one can't be read or trusted
 */
export const loadInstruments = async (
  files: Files,
  { instruments }: Pick<Template, 'instruments'>,
): Promise<ReadonlyMap<string, Instrument>> => {
  const read = new Map<string, Instrument>();
  const loaded = new Map<string, Instrument>();
  const faults: Finding[] = [];
  for (const { id, written, source } of instruments) {
    const key = JSON.stringify(source);
    let instrument = read.get(key);
    // What was found in the file is said once.
    const findings = instrument === undefined ? undefined : [];
    if (instrument === undefined) {
      instrument = (await loadOr(files, source, faults)) ?? undefined;
      if (instrument === undefined) continue;
      read.set(key, instrument);
    }
    loaded.set(id, {
      ...instrument,
      id,
      source: written,
      findings: findings ?? instrument.findings,
    });
  }
  const [first, ...others] = faults;
  if (first !== undefined) throw new InputError(first, others);
  return loaded;
};

/** Null, and the faults told, when it can't be read: a person fills in many files at a time. */
const loadOr = async (
  files: Files,
  source: InstrumentSource,
  faults: Finding[],
): Promise<Instrument | null> => {
  try {
    return await loadInstrument(files, source);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    faults.push(error.finding, ...error.others);
    return null;
  }
};
