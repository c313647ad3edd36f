import { open, type FileHandle } from 'node:fs/promises';

/** Words of 16 bits from `start` up to, not with, `end`. */
export interface Words {
  readonly start: number;
  readonly end: number;
}

/** One record of the `shdr` list: where its points lie (SoundFont 2.01, section 7.10). */
export interface SampleHeader extends Words {
  readonly name: string;
  /** The points are in a ROM, not in the file. */
  readonly rom: boolean;
}

/** Where a bank keeps its sound. Positions and lengths in bytes. */
export interface BankSamples {
  readonly headers: readonly SampleHeader[];
  readonly smpl: { readonly at: number; readonly bytes: number };
  /** The low bytes of 24-bit points, one a point; null in 16-bit banks. */
  readonly sm24: { readonly at: number; readonly bytes: number } | null;
}

const headerBytes = 46;

const readAt = async (file: FileHandle, at: number, bytes: number): Promise<Buffer> => {
  const buffer = Buffer.alloc(bytes);
  const { bytesRead } = await file.read(buffer, 0, bytes, at);
  if (bytesRead !== bytes) throw new Error(`the bank ends within ${String(bytes)} bytes`);
  return buffer;
};

const chunksOf = async (
  file: FileHandle,
  from: number,
  end: number,
): Promise<{ id: string; at: number; bytes: number }[]> => {
  const found: { id: string; at: number; bytes: number }[] = [];
  for (let at = from; at + 8 <= end;) {
    const head = await readAt(file, at, 8);
    const bytes = head.readUInt32LE(4);
    found.push({ id: head.toString('latin1', 0, 4), at: at + 8, bytes });
    at += 8 + bytes + (bytes % 2);
  }
  return found;
};

/**
 * Reads the sample headers of a bank and finds its points: a reader of its own, so that a fault in the
 * project's reader can't hide in the proof. The bank is trusted to be whole.
 */
export const readBankSamples = async (bank: string): Promise<BankSamples> => {
  const file = await open(bank, 'r');
  try {
    const { size } = await file.stat();
    const parts = new Map<string, { at: number; bytes: number }>();
    for (const { id, at, bytes } of await chunksOf(file, 12, size)) {
      if (id !== 'LIST') continue;
      for (const inner of await chunksOf(file, at + 4, at + bytes)) parts.set(inner.id, inner);
    }
    const smpl = parts.get('smpl');
    const shdr = parts.get('shdr');
    if (smpl === undefined || shdr === undefined) throw new Error(`no samples in ${bank}`);
    const records = await readAt(file, shdr.at, shdr.bytes);
    // The last record only ends the list.
    const headers = Array.from({ length: shdr.bytes / headerBytes - 1 }, (_, index) => {
      const at = index * headerBytes;
      return {
        name: records.toString('latin1', at, at + 20).replace(/\0.*$/s, ''),
        start: records.readUInt32LE(at + 20),
        end: records.readUInt32LE(at + 24),
        rom: (records.readUInt16LE(at + 44) & 0x8000) !== 0,
      };
    });
    return { headers, smpl, sm24: parts.get('sm24') ?? null };
  } finally {
    await file.close();
  }
};
