import { inputError } from '../../terms/errors.ts';
import { littleEndian, nameField } from './binary.ts';
import { recordBytes, type List, type ListName, type Lists } from './lists.ts';

/** Half-open stretch of another list: `from` up to, and without, `to`. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface PresetRecord {
  readonly name: string;
  readonly bank: number;
  readonly program: number;
  /** Its zones in `pbag`. */
  readonly zones: Stretch;
  /** Where the record lies in the file. */
  readonly byte: number;
}

export interface InstrumentRecord {
  /** Its zones in `ibag`. */
  readonly zones: Stretch;
}

export interface SampleRecord {
  readonly name: string;
  /** In sample points from the start of the sound; `end` is the first point that is not its own. */
  readonly start: number;
  readonly end: number;
  /** Where its loop begins, and the first point after it (section 7.10). */
  readonly loopStart: number;
  readonly loopEnd: number;
  /** Frames per second. */
  readonly rate: number;
  readonly link: number;
  /** 1 mono, 2 right, 4 left, 8 linked; with 0x8000 in ROM (section 7.10). */
  readonly type: number;
  readonly byte: number;
}

/** The zones of one level, preset or instrument, with their generators. */
export interface ZoneLists {
  readonly generatorChunk: 'pgen' | 'igen';
  /** Where the first generator lies in the file. */
  readonly generatorStart: number;
  /** For each zone its first generator, then one more: where the last zone's generators end. */
  readonly firstGenerator: Uint16Array;
  /** The same of modulators. */
  readonly firstModulator: Uint16Array;
  readonly operators: Uint16Array;
  readonly amounts: Uint16Array;
}

/** The lists a bank is made of, terminal records left out (SoundFont 2.04, section 7.1). */
export interface Hydra {
  readonly presets: readonly PresetRecord[];
  readonly presetZones: ZoneLists;
  readonly instruments: readonly InstrumentRecord[];
  readonly instrumentZones: ZoneLists;
  readonly samples: readonly SampleRecord[];
}

/**
 * Takes the lists apart and checks every index between them.
 *
 * @throws {InputError} `bank-index` when indices descend, or the last one does not name the terminal
 *   record of the list it points into (sections 7.2, 7.3, 7.6, 7.7)
 */
export const readHydra = (path: string, lists: Lists): Hydra => {
  const presetZones = indices(path, lists.phdr, 24, lists.pbag);
  const presetGenerators = indices(path, lists.pbag, 0, lists.pgen);
  const presetModulators = indices(path, lists.pbag, 2, lists.pmod);
  const instrumentZones = indices(path, lists.inst, 20, lists.ibag);
  const instrumentGenerators = indices(path, lists.ibag, 0, lists.igen);
  const instrumentModulators = indices(path, lists.ibag, 2, lists.imod);
  return {
    presets: records(lists.phdr, (view, bytes, byte, i) => ({
      name: nameField(bytes),
      program: view.getUint16(20, true),
      bank: view.getUint16(22, true),
      zones: { from: presetZones[i]!, to: presetZones[i + 1]! },
      byte,
    })),
    presetZones: zoneLists(lists.pgen, presetGenerators, presetModulators),
    instruments: records(lists.inst, (_view, _bytes, _byte, i) => ({
      zones: { from: instrumentZones[i]!, to: instrumentZones[i + 1]! },
    })),
    instrumentZones: zoneLists(lists.igen, instrumentGenerators, instrumentModulators),
    samples: records(lists.shdr, (view, bytes, byte) => ({
      name: nameField(bytes),
      start: view.getUint32(20, true),
      end: view.getUint32(24, true),
      loopStart: view.getUint32(28, true),
      loopEnd: view.getUint32(32, true),
      rate: view.getUint32(36, true),
      link: view.getUint16(42, true),
      type: view.getUint16(44, true),
      byte,
    })),
  };
};

/** Every record but the terminal one; `bytes` begins with the 20 bytes of the name, if it has one. */
const records = <T>(
  { name, start, count, bytes }: List,
  read: (view: DataView, name: Uint8Array, byte: number, index: number) => T,
): readonly T[] => {
  const size = recordBytes[name];
  return Array.from({ length: count - 1 }, (_, i) => {
    const record = bytes.subarray(i * size, (i + 1) * size);
    return read(littleEndian(record), record.subarray(0, 20), start + i * size, i);
  });
};

/** The unsigned 16-bit field at `offset` of every record, terminal one included, as indices. */
const indices = (path: string, list: List, offset: number, target: List): Uint16Array => {
  const size = recordBytes[list.name];
  const view = littleEndian(list.bytes);
  const found = new Uint16Array(list.count);
  for (let i = 0; i < list.count; i++) {
    const value = view.getUint16(i * size + offset, true);
    const last = i === list.count - 1;
    if ((i > 0 && value < found[i - 1]!) || (last && value !== target.count - 1)) {
      throw badIndex(path, list.name, list.start, i, value);
    }
    found[i] = value;
  }
  return found;
};

/** An index that can't be right, at the record that holds it. */
export const badIndex = (
  path: string,
  chunk: ListName,
  start: number,
  record: number,
  value: number,
) =>
  inputError(
    'bank-index',
    path,
    { chunk, record, value },
    {
      byte: start + record * recordBytes[chunk],
    },
  );

const zoneLists = (
  generators: List,
  firstGenerator: Uint16Array,
  firstModulator: Uint16Array,
): ZoneLists => {
  const operators = new Uint16Array(generators.count);
  const amounts = new Uint16Array(generators.count);
  const view = littleEndian(generators.bytes);
  for (let i = 0; i < generators.count; i++) {
    operators[i] = view.getUint16(i * 4, true);
    amounts[i] = view.getUint16(i * 4 + 2, true);
  }
  return {
    generatorChunk: generators.name === 'pgen' ? 'pgen' : 'igen',
    generatorStart: generators.start,
    firstGenerator,
    firstModulator,
    operators,
    amounts,
  };
};
