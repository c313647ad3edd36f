/**
 * Small SoundFont banks, byte by byte (SoundFont 2.04, sections 4 to 7). Nothing here comes from
 * `src`: a wrong offset in the reader shows.
 */

/** A generator: operator and 16-bit amount (section 7.5). */
export type Gen = readonly [operator: number, amount: number];

export const keys = (lo: number, hi: number): Gen => [43, lo | (hi << 8)];
export const velocities = (lo: number, hi: number): Gen => [44, lo | (hi << 8)];
export const instrument = (index: number): Gen => [41, index];
export const sample = (index: number): Gen => [53, index];
/** A generator that selects nothing: 17, pan. */
export const pan = (amount: number): Gen => [17, amount];

export interface BankSpec {
  readonly version?: readonly [major: number, minor: number];
  readonly presets?: readonly {
    readonly name?: string;
    readonly bank?: number;
    readonly program?: number;
    readonly zones: readonly (readonly Gen[])[];
  }[];
  readonly instruments?: readonly {
    readonly name?: string;
    readonly zones: readonly (readonly Gen[])[];
  }[];
  readonly samples?: readonly {
    readonly name?: string | Uint8Array;
    readonly start?: number;
    readonly end?: number;
    readonly link?: number;
    readonly type?: number;
  }[];
  /** Sample points in `smpl`; null: no such chunk. */
  readonly points?: number | null;
  /** Bytes in `sm24`. */
  readonly sm24?: number;
  /** More chunks of INFO. */
  readonly info?: readonly Part[];
}

/** A chunk: its id and its data. */
export type Part = readonly [id: string, data: Uint8Array];

/** A bank as lists of chunks, to be changed before it is put together. */
export interface BankParts {
  readonly INFO: readonly Part[];
  readonly sdta: readonly Part[];
  readonly pdta: readonly Part[];
}

export const ascii = (text: string): Uint8Array =>
  Uint8Array.from(text, (character) => character.charCodeAt(0));

export const join = (...parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

export const u16 = (...values: readonly number[]): Uint8Array =>
  Uint8Array.from(values.flatMap((value) => [value & 255, (value >> 8) & 255]));

export const u32 = (...values: readonly number[]): Uint8Array =>
  join(...values.map((value) => u16(value % 65_536, Math.floor(value / 65_536))));

/** A name in 20 bytes. */
const name20 = (name: string | Uint8Array): Uint8Array => {
  const field = new Uint8Array(20);
  field.set((typeof name === 'string' ? ascii(name) : name).subarray(0, 20));
  return field;
};

/** A chunk with its pad byte (section 3.1). */
export const chunk = (id: string, data: Uint8Array): Uint8Array =>
  join(ascii(id), u32(data.length), data, new Uint8Array(data.length % 2));

export const list = (type: string, parts: readonly Part[]): Uint8Array =>
  chunk('LIST', join(ascii(type), ...parts.map(([id, data]) => chunk(id, data))));

/** Zones of all owners in a row: bag records, generators, and the first bag of each owner. */
const zoneBytes = (owners: readonly { readonly zones: readonly (readonly Gen[])[] }[]) => {
  const first: number[] = [];
  const bags: Uint8Array[] = [];
  const gens: Uint8Array[] = [];
  for (const { zones } of owners) {
    first.push(bags.length);
    for (const zone of zones) {
      bags.push(u16(gens.length, 0));
      gens.push(...zone.map(([operator, amount]) => u16(operator, amount)));
    }
  }
  first.push(bags.length);
  bags.push(u16(gens.length, 0));
  gens.push(u16(0, 0));
  return { first, bags: join(...bags), gens: join(...gens) };
};

export const bankParts = (spec: BankSpec = {}): BankParts => {
  const samples = spec.samples ?? [{}];
  const instruments = spec.instruments ?? [{ zones: [[sample(0)]] }];
  const presets = spec.presets ?? [{ zones: [[instrument(0)]] }];
  const points = spec.points === undefined ? 1000 : spec.points;
  const presetZones = zoneBytes(presets);
  const instrumentZones = zoneBytes(instruments);
  const phdr = presets.map(({ name = 'Preset', bank = 0, program = 0 }, i) =>
    join(name20(name), u16(program, bank, presetZones.first[i]!), u32(0, 0, 0)),
  );
  const inst = instruments.map(({ name = 'Instrument' }, i) =>
    join(name20(name), u16(instrumentZones.first[i]!)),
  );
  const shdr = samples.map(({ name = 'Sample', start = 0, end = 100, link = 0, type = 1 }) =>
    join(name20(name), u32(start, end, start + 8, start + 40, 44_100), u16(60), u16(link, type)),
  );
  const sdta: Part[] = [];
  if (points !== null) sdta.push(['smpl', new Uint8Array(points * 2)]);
  if (spec.sm24 !== undefined) sdta.push(['sm24', new Uint8Array(spec.sm24)]);
  return {
    INFO: [['ifil', u16(...(spec.version ?? [2, 1]))], ...(spec.info ?? [])],
    sdta,
    pdta: [
      ['phdr', join(...phdr, name20('EOP'), u16(0, 0, presetZones.first.at(-1)!), u32(0, 0, 0))],
      ['pbag', presetZones.bags],
      ['pmod', new Uint8Array(10)],
      ['pgen', presetZones.gens],
      ['inst', join(...inst, name20('EOI'), u16(instrumentZones.first.at(-1)!))],
      ['ibag', instrumentZones.bags],
      ['imod', new Uint8Array(10)],
      ['igen', instrumentZones.gens],
      ['shdr', join(...shdr, name20('EOS'), new Uint8Array(26))],
    ],
  };
};

export const assemble = ({ INFO, sdta, pdta }: BankParts): Uint8Array =>
  riff(list('INFO', INFO), list('sdta', sdta), list('pdta', pdta));

export const riff = (...chunks: readonly Uint8Array[]): Uint8Array =>
  chunk('RIFF', join(ascii('sfbk'), ...chunks));

/** A whole bank; what the spec leaves out is one preset over one instrument over one sample. */
export const bankBytes = (spec: BankSpec = {}): Uint8Array => assemble(bankParts(spec));

/** The parts with the data of one chunk changed. */
export const withChunk = (
  parts: BankParts,
  id: string,
  change: (data: Uint8Array) => Uint8Array,
): BankParts => {
  const inList = (chunks: readonly Part[]): readonly Part[] =>
    chunks.map(([name, data]) => [name, name === id ? change(data) : data]);
  return { INFO: inList(parts.INFO), sdta: inList(parts.sdta), pdta: inList(parts.pdta) };
};

/** Bytes with a 16-bit number written over. */
export const patched = (data: Uint8Array, offset: number, value: number): Uint8Array => {
  const copy = data.slice();
  copy.set(u16(value), offset);
  return copy;
};
