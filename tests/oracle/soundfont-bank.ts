/**
 * Reads the zones of a SoundFont 2 file in the most obvious way.
 *
 * Source: SoundFont Technical Specification 2.01, sections 7 and 8. It trusts its input, which comes
 * from `writeBank` or from a real bank: a broken file gets a plain error, or nonsense.
 */

/** Limits, both inclusive. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

export interface OracleZone {
  /** Number of the zone's bag over the whole file: pbag for a preset, ibag for an instrument. */
  readonly index: number;
  /** Null: the zone has no accepted key range of its own. */
  readonly keys: Range | null;
  readonly velocities: Range | null;
  /** Accepted generators; where an operator comes twice, the last amount. */
  readonly amounts: ReadonlyMap<number, number>;
  /** The instrument (preset zone) or sample (instrument zone); null in a global zone. */
  readonly target: number | null;
}

export interface OracleZones {
  readonly global: OracleZone | null;
  /** The zones that can sound: those with an instrument or a sample. */
  readonly locals: readonly OracleZone[];
}

export interface OraclePreset extends OracleZones {
  /** Its place in the file, from 0. */
  readonly index: number;
  readonly name: string;
  readonly bank: number;
  readonly program: number;
}

export interface OracleInstrument extends OracleZones {
  readonly index: number;
  readonly name: string;
}

export interface OracleSample {
  readonly index: number;
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly link: number;
  readonly type: number;
}

export interface OracleBank {
  /** Presets in file order, without those that have no zone at all (section 7.2). */
  readonly presets: readonly OraclePreset[];
  /** All instruments; one without zones has no locals and so stays silent (section 7.6). */
  readonly instruments: readonly OracleInstrument[];
  readonly samples: readonly OracleSample[];
}

const keyRange = 43;
const velocityRange = 44;
const instrumentOperator = 41;
const sampleOperator = 53;

/** All presets, instruments and sample headers of a file. */
export function readBank(bytes: Uint8Array): OracleBank {
  const lists = readLists(bytes);
  const presets = records(lists, 'phdr', 38);
  const instruments = records(lists, 'inst', 22);
  const samples = records(lists, 'shdr', 46);

  const presetZones = readZones(lists, 'pbag', 'pgen', instrumentOperator, instruments.length - 1);
  const instrumentZones = readZones(lists, 'ibag', 'igen', sampleOperator, samples.length - 1);

  return {
    presets: withoutTerminal(presets)
      .map((record, index) => ({
        index,
        name: name(record),
        program: record.getUint16(20, true),
        bank: record.getUint16(22, true),
        zones: presetZones.slice(
          record.getUint16(24, true),
          presets[index + 1]?.getUint16(24, true),
        ),
      }))
      .filter(({ zones }) => zones.length > 0)
      .map(({ zones, ...preset }) => ({ ...preset, ...splitZones(zones) })),
    instruments: withoutTerminal(instruments).map((record, index) => ({
      index,
      name: name(record),
      ...splitZones(
        instrumentZones.slice(
          record.getUint16(20, true),
          instruments[index + 1]?.getUint16(20, true),
        ),
      ),
    })),
    samples: withoutTerminal(samples).map((record, index) => ({
      index,
      name: name(record),
      start: record.getUint32(20, true),
      end: record.getUint32(24, true),
      link: record.getUint16(42, true),
      type: record.getUint16(44, true),
    })),
  };
}

/**
 * Sections 7.3 and 7.7: the first zone is global if there are more zones and it names no instrument
 * or sample; any other zone that names none is ignored.
 */
function splitZones(zones: readonly OracleZone[]): OracleZones {
  const first = zones[0];
  return {
    global: first !== undefined && zones.length > 1 && first.target === null ? first : null,
    locals: zones.filter((zone) => zone.target !== null),
  };
}

/** The zones of all presets, or of all instruments, in file order. */
function readZones(
  lists: ReadonlyMap<string, DataView>,
  bagList: string,
  generatorList: string,
  targetOperator: number,
  targets: number,
): OracleZone[] {
  const bags = records(lists, bagList, 4);
  const generators = records(lists, generatorList, 4);
  return withoutTerminal(bags).map((bag, index) => {
    const own = generators.slice(bag.getUint16(0, true), bags[index + 1]?.getUint16(0, true));
    const zone = readZone(index, own, targetOperator);
    if (zone.target !== null && zone.target >= targets) {
      throw new Error(`zone ${index} of ${bagList} names ${zone.target}, which does not exist`);
    }
    return zone;
  });
}

/** Sections 7.5, 7.9 and 8.1.2: which generators of a zone count. */
function readZone(
  index: number,
  generators: readonly DataView[],
  targetOperator: number,
): OracleZone {
  const amounts = new Map<number, number>();
  const before: number[] = [];
  for (const generator of generators) {
    const operator = generator.getUint16(0, true);
    const inPlace =
      operator === keyRange
        ? before.length === 0
        : operator === velocityRange
          ? before.every((earlier) => earlier === keyRange)
          : true;
    if (inPlace) amounts.set(operator, generator.getUint16(2, true));
    before.push(operator);
    // Nothing counts after the instrument or the sample.
    if (operator === targetOperator) break;
  }
  return {
    index,
    keys: rangeOf(amounts.get(keyRange)),
    velocities: rangeOf(amounts.get(velocityRange)),
    amounts,
    target: amounts.get(targetOperator) ?? null,
  };
}

/** Section 7.5, `rangesType`: the first byte is the low limit. */
function rangeOf(amount: number | undefined): Range | null {
  return amount === undefined ? null : { low: amount & 0xff, high: amount >> 8 };
}

/** The chunks inside `LIST pdta`, by name. */
function readLists(bytes: Uint8Array): Map<string, DataView> {
  const file = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (letters(file, 0, 4) !== 'RIFF' || letters(file, 8, 4) !== 'sfbk') {
    throw new Error('this is not a SoundFont file');
  }
  const lists = new Map<string, DataView>();
  for (const outer of chunks(file, 12)) {
    if (outer.name !== 'LIST' || letters(outer.body, 0, 4) !== 'pdta') continue;
    for (const inner of chunks(outer.body, 4)) lists.set(inner.name, inner.body);
  }
  return lists;
}

/** The chunks that follow one another from `start` to the end; each is padded to an even length. */
function chunks(view: DataView, start: number): { name: string; body: DataView }[] {
  const found = [];
  for (let at = start; at + 8 <= view.byteLength;) {
    const size = view.getUint32(at + 4, true);
    const body = new DataView(view.buffer, view.byteOffset + at + 8, size);
    found.push({ name: letters(view, at, 4), body });
    at += 8 + size + (size % 2);
  }
  return found;
}

/** The records of a list, the terminal one included. */
function records(lists: ReadonlyMap<string, DataView>, list: string, size: number): DataView[] {
  const body = lists.get(list);
  if (body === undefined || body.byteLength === 0 || body.byteLength % size !== 0) {
    throw new Error(`the list ${list} is missing or has the wrong size`);
  }
  const found = [];
  for (let at = 0; at < body.byteLength; at += size) {
    found.push(new DataView(body.buffer, body.byteOffset + at, size));
  }
  return found;
}

function withoutTerminal(all: readonly DataView[]): DataView[] {
  return all.slice(0, -1);
}

/** The first field of a preset, instrument or sample: twenty bytes, zeros after the name. */
function name(record: DataView): string {
  return letters(record, 0, 20).split('\0')[0] ?? '';
}

function letters(view: DataView, start: number, count: number): string {
  let result = '';
  for (let at = start; at < start + count; at += 1) {
    result += String.fromCharCode(view.getUint8(at));
  }
  return result;
}
