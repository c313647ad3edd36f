import { leaves, type RawChunk } from '../demo/read-bank.ts';

/** Record sizes of the lists that know an instrument's zones (SoundFont 2.01, sections 7.6 to 7.9). */
const sizes = { inst: 22, ibag: 4, imod: 10, igen: 4 } as const;

/** Where the number lies within a record of `inst` that says with which bag the instrument begins. */
const firstBag = 20;

const padded = (id: string, body: Buffer): Buffer => {
  const head = Buffer.alloc(8);
  head.write(id, 'latin1');
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)]);
};

/** Lowers what counts from 0 behind a place from which something was taken. */
const lower = (body: Buffer, at: number, after: number, by: number): void => {
  const value = body.readUInt16LE(at);
  if (value > after) body.writeUInt16LE(value - by, at);
};

/**
 * A copy of a bank without one instrument zone: its bag, generators and modulators are gone, and what
 * counts them says so. The sample stays. `pdta` must be the last list of the file.
 */
export const dropZone = (bank: Uint8Array, zone: number): Uint8Array => {
  const { chunks, lists } = leaves(bank);
  const body = ({ at, size }: RawChunk): Buffer => Buffer.from(bank.slice(at, at + size));
  const pdta = ['phdr', 'pbag', 'pmod', 'pgen', 'inst', 'ibag', 'imod', 'igen', 'shdr'] as const;
  if (lists.at(-1) !== 'pdta') throw new Error('the lists are not the last part of the bank');
  const parts = new Map<string, Buffer>(pdta.map((id) => [id, body(chunks.get(id)!)]));
  const [inst, bags] = [parts.get('inst')!, parts.get('ibag')!];

  const cut = (id: 'imod' | 'igen', counter: number): void => {
    const [from, to] = [zone, zone + 1].map((one) => bags.readUInt16LE(one * sizes.ibag + counter));
    const list = parts.get(id)!;
    parts.set(
      id,
      Buffer.concat([list.subarray(0, from! * sizes[id]), list.subarray(to! * sizes[id])]),
    );
    for (let at = counter; at < bags.length; at += sizes.ibag) lower(bags, at, from!, to! - from!);
  };
  cut('igen', 0);
  cut('imod', 2);
  parts.set(
    'ibag',
    Buffer.concat([bags.subarray(0, zone * sizes.ibag), bags.subarray((zone + 1) * sizes.ibag)]),
  );
  for (let at = firstBag; at < inst.length; at += sizes.inst) lower(inst, at, zone, 1);

  const list = Buffer.concat([
    Buffer.from('pdta', 'latin1'),
    ...pdta.map((id) => padded(id, parts.get(id)!)),
  ]);
  // Twelve bytes stand between the start of the list and its first part.
  const before = Buffer.from(bank.slice(0, chunks.get('phdr')!.at - 8 - 12));
  const whole = Buffer.concat([before, padded('LIST', list)]);
  whole.writeUInt32LE(whole.length - 8, 4);
  return Uint8Array.from(whole);
};
