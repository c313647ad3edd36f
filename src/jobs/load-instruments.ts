import { sha256 } from '../files/digest.ts';
import type { Instrument } from '../instruments/instrument.ts';
import { withMicrophones } from '../instruments/loaded-microphones.ts';
import { microphonesOf } from '../instruments/microphones-of.ts';
import { shortened } from '../notation/document/shortened.ts';
import { fold } from '../notation/fold.ts';
import { nearest } from '../notation/nearest.ts';
import type { InstrumentSource, Template, TemplateInstrument } from '../template/template.ts';
import { InputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import type { OnStep } from './work-step.ts';

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
    case 'outline': {
      const { readOutline } = await import('../instruments/outline/read.ts');
      return readOutline(files, source.path, digest);
    }
  }
};

/** What a template says of an instrument, as far as it decides what is loaded. */
type Declared = Pick<TemplateInstrument, 'id' | 'source' | 'microphones' | 'at'>;

/** Microphones that are shown where one is not known. */
const most = 8;

/** An error for each microphone that a template names and the instrument does not have. */
const unknownMicrophones = (
  { zones }: Instrument,
  { id, microphones, at }: Declared,
  template: string | null,
): readonly Finding[] => {
  const known = microphonesOf({ zones });
  const folded = new Set(known.map(fold));
  return (microphones ?? [])
    .filter((name) => !folded.has(fold(name)))
    .map((name) => {
      const args = {
        instrument: shortened(id),
        name: shortened(name),
        near: nearest(name, known),
        known: known.slice(0, most).map(shortened),
      };
      return finding('error', 'template-microphone', template, args, at);
    });
};

/**
 * A definition with the microphones that a template loads. With fewer than all it is another
 * instrument: nothing is shared with one that has others.
 *
 * @param template the path of the template, for what is wrong with a microphone's name
 * @throws {InputError} when it does not have one of them
 */
const loadedAs = (
  instrument: Instrument,
  declared: Declared,
  template: string | null,
): Instrument => {
  if (declared.microphones === null) return instrument;
  const [first, ...others] = unknownMicrophones(instrument, declared, template);
  if (first !== undefined) throw new InputError(first, others);
  const loaded = withMicrophones(instrument, declared.microphones);
  if (loaded === instrument) return instrument;
  const names = [...new Set(declared.microphones.map(fold))].sort();
  const text = JSON.stringify([instrument.sha256, 'microphones', names]);
  return { ...loaded, sha256: sha256(new TextEncoder().encode(text)) };
};

/**
 * Reads one instrument of a template, with the microphones that are loaded.
 *
 * @param template the path of the template
 * @throws {InputError} when it can't be read or trusted, or does not have a microphone
 */
export const loadDeclared = async (
  files: Files,
  declared: Declared,
  template: string | null,
): Promise<Instrument> =>
  loadedAs(await loadInstrument(files, declared.source), declared, template);

/**
 * Reads every instrument of a template, in its order; a file that several name is read once.
 *
 * @throws {InputError} when one can't be read or trusted
 */
export const loadInstruments = async (
  files: Files,
  { instruments, path = null }: Pick<Template, 'instruments'> & Partial<Pick<Template, 'path'>>,
  onStep?: OnStep,
): Promise<ReadonlyMap<string, Instrument>> => {
  const read = new Map<string, Instrument>();
  const loaded = new Map<string, Instrument>();
  const faults: Finding[] = [];
  for (const [i, declared] of instruments.entries()) {
    const { id, written, source } = declared;
    await onStep?.({ doing: 'loading', name: id, count: { at: i + 1, of: instruments.length } });
    const key = JSON.stringify(source);
    const before = read.get(key);
    const definition = before ?? (await orFaults(loadInstrument(files, source), faults));
    if (definition === null) continue;
    read.set(key, definition);
    const instrument = await orFaults(
      Promise.resolve().then(() => loadedAs(definition, declared, path)),
      faults,
    );
    if (instrument === null) continue;
    // What was found in the file is said once.
    const findings = before === undefined ? instrument.findings : [];
    loaded.set(id, { ...instrument, id, source: written, findings });
  }
  const [first, ...others] = faults;
  if (first !== undefined) throw new InputError(first, others);
  return loaded;
};

/** Null, and the faults told, when it can't be read: a person fills in many files at a time. */
const orFaults = async <Result>(
  reading: Promise<Result>,
  faults: Finding[],
): Promise<Result | null> => {
  try {
    return await reading;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    faults.push(error.finding, ...error.others);
    return null;
  }
};
