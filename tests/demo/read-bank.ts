/**
 * A second, plain reading of a SoundFont for the tests: whole file, by record, nothing shared with
 * the writer. Record layouts: SoundFont Technical Specification 2.04, section 7.
 */

export interface RawChunk {
  readonly id: string;
  /** Where its data starts in the file. */
  readonly at: number;
  readonly size: number;
}

const id = (bytes: Uint8Array, at: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + 4));

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** The chunks from `at` to `end`, which must be filled exactly. */
export const chunksIn = (bytes: Uint8Array, at: number, end: number): readonly RawChunk[] => {
  const chunks: RawChunk[] = [];
  while (at < end) {
    const size = viewOf(bytes).getUint32(at + 4, true);
    chunks.push({ id: id(bytes, at), at: at + 8, size });
    at += 8 + size + (size % 2);
  }
  if (at !== end) throw new Error(`chunks end at ${at}, not at ${end}`);
  return chunks;
};

/** Every leaf chunk by id, and the three list types in file order. */
export const leaves = (
  bytes: Uint8Array,
): { readonly lists: readonly string[]; readonly chunks: ReadonlyMap<string, RawChunk> } => {
  const [riff, ...more] = chunksIn(bytes, 0, bytes.length);
  if (riff?.id !== 'RIFF' || id(bytes, 8) !== 'sfbk' || more.length > 0)
    throw new Error('not sfbk');
  const lists = chunksIn(bytes, 12, bytes.length);
  return {
    lists: lists.map(({ at }) => id(bytes, at)),
    chunks: new Map(
      lists
        .flatMap(({ at, size }) => chunksIn(bytes, at + 4, at + size))
        .map((chunk) => [chunk.id, chunk]),
    ),
  };
};

export interface RawZone {
  /** Index of its bag record. */
  readonly bag: number;
  /** Operator and amount (unsigned), in file order. */
  readonly generators: readonly (readonly [operator: number, amount: number])[];
}

export interface RawOwner {
  readonly name: string;
  readonly bank: number;
  readonly program: number;
  readonly zones: readonly RawZone[];
}

export interface RawSample {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly loopStart: number;
  readonly loopEnd: number;
  readonly rate: number;
  readonly key: number;
  readonly link: number;
  readonly type: number;
}

export interface RawBank {
  readonly presets: readonly RawOwner[];
  readonly instruments: readonly RawOwner[];
  readonly samples: readonly RawSample[];
  readonly points: Int16Array;
  /** Where the sample data starts in the file. */
  readonly pointsAt: number;
}

export const readBank = (bytes: Uint8Array): RawBank => {
  const view = viewOf(bytes);
  const { chunks } = leaves(bytes);
  const rows = (name: string, record: number): readonly number[] => {
    const { at, size } = chunks.get(name)!;
    return Array.from({ length: size / record }, (_, index) => at + index * record);
  };
  const text = (at: number): string =>
    String.fromCharCode(...bytes.subarray(at, at + 20)).replace(/\0.*$/s, '');
  const word = (at: number): number => view.getUint16(at, true);
  const owners = (
    headers: readonly number[],
    bagAt: number,
    level: 'p' | 'i',
  ): readonly RawOwner[] => {
    const bags = rows(`${level}bag`, 4);
    const generators = rows(`${level}gen`, 4);
    return headers.slice(0, -1).map((at, index) => ({
      name: text(at),
      bank: bagAt === 24 ? word(at + 22) : 0,
      program: bagAt === 24 ? word(at + 20) : 0,
      zones: Array.from(
        { length: word(headers[index + 1]! + bagAt) - word(at + bagAt) },
        (_, place) => {
          const bag = word(at + bagAt) + place;
          const own = generators.slice(word(bags[bag]!), word(bags[bag + 1]!));
          return { bag, generators: own.map((row) => [word(row), word(row + 2)] as const) };
        },
      ),
    }));
  };
  const smpl = chunks.get('smpl')!;
  return {
    presets: owners(rows('phdr', 38), 24, 'p'),
    instruments: owners(rows('inst', 22), 20, 'i'),
    samples: rows('shdr', 46)
      .slice(0, -1)
      .map((at) => ({
        name: text(at),
        start: view.getUint32(at + 20, true),
        end: view.getUint32(at + 24, true),
        loopStart: view.getUint32(at + 28, true),
        loopEnd: view.getUint32(at + 32, true),
        rate: view.getUint32(at + 36, true),
        key: view.getUint8(at + 40),
        link: word(at + 42),
        type: word(at + 44),
      })),
    points: Int16Array.from({ length: smpl.size / 2 }, (_, index) =>
      view.getInt16(smpl.at + index * 2, true),
    ),
    pointsAt: smpl.at,
  };
};

/** The amount of a generator in a zone, or undefined. */
export const amount = (zone: RawZone, operator: number): number | undefined =>
  zone.generators.find(([own]) => own === operator)?.[1];

/** True when the zone's key and velocity ranges take the note. */
export const takes = (zone: RawZone, key: number, velocity: number): boolean =>
  [
    [amount(zone, 43), key],
    [amount(zone, 44), velocity],
  ].every(
    ([range, value]) => range === undefined || ((range & 0xff) <= value! && value! <= range >> 8),
  );
