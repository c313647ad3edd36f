/**
 * Takes a bank apart into plain values, one loop a list (SoundFont 2.04, sections 4 to 7). It trusts
 * its input but for the sizes it is there to judge, and imports nothing of `src`.
 */
export interface RawZone {
  readonly generators: readonly (readonly [operator: number, amount: number])[];
  /** Each modulator's ten bytes, in hex. */
  readonly modulators: readonly string[];
}

export interface RawOwner {
  readonly name: string;
  /** The record without name and first zone, in hex. */
  readonly rest: string;
  /** Index of its first zone over the whole file. */
  readonly first: number;
  readonly zones: readonly RawZone[];
}

export interface RawSample {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly loop: readonly [number, number];
  /** Rate, key and cents, in hex. */
  readonly sound: string;
  readonly link: number;
  readonly type: number;
}

export interface RawBank {
  readonly info: readonly { readonly id: string; readonly data: Uint8Array }[];
  /** Ids of the chunks in sdta and pdta. */
  readonly order: readonly string[];
  readonly smpl: Uint8Array | null;
  readonly sm24: Uint8Array | null;
  readonly presets: readonly RawOwner[];
  readonly instruments: readonly RawOwner[];
  readonly samples: readonly RawSample[];
  /** Terminal records in hex, by list. */
  readonly terminals: Readonly<Record<string, string>>;
}

export const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const word = (bytes: Uint8Array, at: number): number => bytes[at]! + bytes[at + 1]! * 256;
const long = (bytes: Uint8Array, at: number): number =>
  word(bytes, at) + word(bytes, at + 2) * 65_536;
const letters = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');
const name = (record: Uint8Array): string => letters(record.subarray(0, 20)).split('\0')[0]!;

/** Chunks that fill `bytes` to the last one; fails when they do not. */
const chunksOf = (bytes: Uint8Array): { id: string; data: Uint8Array }[] => {
  const found = [];
  let at = 0;
  while (at < bytes.length) {
    const size = long(bytes, at + 4);
    const end = at + 8 + size;
    if (end + (size % 2) > bytes.length) throw new Error(`chunk at ${String(at)} is cut off`);
    found.push({ id: letters(bytes.subarray(at, at + 4)), data: bytes.subarray(at + 8, end) });
    at = end + (size % 2);
  }
  return found;
};

const records = (bytes: Uint8Array, size: number): Uint8Array[] => {
  if (bytes.length % size !== 0) throw new Error('not a whole number of records');
  return Array.from({ length: bytes.length / size }, (_, i) =>
    bytes.subarray(i * size, (i + 1) * size),
  );
};

export const readRaw = (bytes: Uint8Array): RawBank => {
  const [whole, ...more] = chunksOf(bytes);
  if (whole?.id !== 'RIFF' || more.length > 0) throw new Error('not one RIFF chunk');
  if (letters(whole.data.subarray(0, 4)) !== 'sfbk') throw new Error('not a bank');
  const lists = chunksOf(whole.data.subarray(4)).map(({ id, data }) => {
    if (id !== 'LIST') throw new Error(`${id} is no LIST`);
    return { type: letters(data.subarray(0, 4)), chunks: chunksOf(data.subarray(4)) };
  });
  if (lists.map(({ type }) => type).join() !== 'INFO,sdta,pdta') throw new Error('wrong lists');
  const [info, sdta, pdta] = lists.map(({ chunks }) => chunks);
  const list = (id: string): Uint8Array => pdta!.find((chunk) => chunk.id === id)!.data;
  const owners = (header: string, size: number, bagAt: number, level: 'p' | 'i'): RawOwner[] => {
    const heads = records(list(header), size);
    const bags = records(list(`${level}bag`), 4);
    const gens = records(list(`${level}gen`), 4);
    const mods = records(list(`${level}mod`), 10);
    const last = bags.at(-1)!;
    if (word(heads.at(-1)!, bagAt) !== bags.length - 1) throw new Error(`last of ${header}`);
    if (word(last, 0) !== gens.length - 1) throw new Error(`last generator of ${level}bag`);
    if (word(last, 2) !== mods.length - 1) throw new Error(`last modulator of ${level}bag`);
    const zones = bags.slice(0, -1).map((bag, i): RawZone => {
      const next = bags[i + 1]!;
      return {
        generators: gens
          .slice(word(bag, 0), word(next, 0))
          .map((gen) => [word(gen, 0), word(gen, 2)] as const),
        modulators: mods.slice(word(bag, 2), word(next, 2)).map(hex),
      };
    });
    return heads.slice(0, -1).map((head, i) => ({
      name: name(head),
      rest: hex(head.subarray(20, bagAt)) + hex(head.subarray(bagAt + 2)),
      first: word(head, bagAt),
      zones: zones.slice(word(head, bagAt), word(heads[i + 1]!, bagAt)),
    }));
  };
  const sizes = { phdr: 38, pmod: 10, pgen: 4, inst: 22, imod: 10, igen: 4, shdr: 46 };
  return {
    info: info!,
    order: [...sdta!, ...pdta!].map(({ id }) => id),
    smpl: sdta!.find(({ id }) => id === 'smpl')?.data ?? null,
    sm24: sdta!.find(({ id }) => id === 'sm24')?.data ?? null,
    presets: owners('phdr', 38, 24, 'p'),
    instruments: owners('inst', 22, 20, 'i'),
    samples: records(list('shdr'), 46)
      .slice(0, -1)
      .map((head) => ({
        name: name(head),
        start: long(head, 20),
        end: long(head, 24),
        loop: [long(head, 28), long(head, 32)],
        sound: hex(head.subarray(36, 42)),
        link: word(head, 42),
        type: word(head, 44),
      })),
    terminals: Object.fromEntries(
      Object.entries(sizes).map(([id, size]) => [id, hex(list(id).subarray(-size))]),
    ),
  };
};

/** All zones of presets or instruments, by their index over the whole file. */
export const zonesByIndex = (owners: readonly RawOwner[]) =>
  new Map(
    owners.flatMap((owner) =>
      owner.zones.map((zone, i) => [owner.first + i, { ...zone, owner }] as const),
    ),
  );

/** High word and low byte of each point in a stretch, as far as there are any. */
export const wordsOf = ({ smpl, sm24 }: RawBank, from: number, to: number): readonly string[] => {
  const found: string[] = [];
  for (let point = Math.max(from, 0); point < to; point++) {
    if (smpl === null || point * 2 + 1 >= smpl.length) break;
    found.push(`${String(word(smpl, point * 2))}.${String(sm24?.[point] ?? '-')}`);
  }
  return found;
};
