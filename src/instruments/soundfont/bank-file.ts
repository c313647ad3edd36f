import { inputError } from '../../terms/errors.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { littleEndian } from './binary.ts';
import { listNames, readList, type Lists } from './lists.ts';
import type { RangeReader } from './range-reader.ts';
import { openRiff, readChunks, type Chunk, type Chunks } from './riff.ts';

/** What a bank's file holds, the sound left out. */
export interface BankFile {
  readonly path: string;
  /** The specification it follows: 2.04 is `{ major: 2, minor: 4 }`. */
  readonly version: { readonly major: number; readonly minor: number };
  /** True when it says which ROM its ROM samples lie in. */
  readonly namesRom: boolean;
  /** The chunks of the INFO list, in file order. */
  readonly info: readonly Chunk[];
  /** Where the sound lies: the chunks with its high and low bytes; null without one. */
  readonly smpl: Chunk | null;
  readonly sm24: Chunk | null;
  readonly lists: Lists;
  readonly findings: readonly Finding[];
}

/**
 * Reads a bank's chunk headers, its version and its nine lists; never the sound.
 *
 * @throws {InputError} when the file is structurally unsound (SoundFont 2.04, sections 3.3, 10.1)
 */
export const readBankFile = async (reader: RangeReader): Promise<BankFile> => {
  const findings: Finding[] = [];
  const { path } = reader;

  const riff = await openRiff(reader);
  const top = inOrder(path, await readChunks(reader, riff), topChunks, findings);
  if (riff.end < reader.size) {
    const args = { bytes: reader.size - riff.end };
    findings.push(finding('note', 'bank-bytes-after-end', path, args, { byte: riff.end }));
  }

  const info = await readChunks(reader, spanOf(required(path, top, 'LIST INFO')));
  const version = await readVersion(reader, info.chunks);

  const sdta = await readChunks(reader, spanOf(required(path, top, 'LIST sdta')));
  const sound = inOrder(path, sdta, ['smpl', 'sm24'], findings);

  const pdta = await readChunks(reader, spanOf(required(path, top, 'LIST pdta')));
  const found = inOrder(path, pdta, listNames, findings);
  const chunks = listNames.map((name) => required(path, found, name));
  const lists = [];
  for (const [i, name] of listNames.entries()) lists.push(await readList(reader, name, chunks[i]!));

  return {
    path,
    version,
    namesRom: info.chunks.some(({ id, length }) => id === 'irom' && length > 0),
    info: info.chunks,
    smpl: sound.get('smpl') ?? null,
    sm24: sound.get('sm24') ?? null,
    lists: Object.fromEntries(lists.map((list) => [list.name, list])) as unknown as Lists,
    findings,
  };
};

/** Section 4.1; the order of all chunks is fixed, save inside INFO (section 3.1). */
const topChunks = ['LIST INFO', 'LIST sdta', 'LIST pdta'] as const;

const spanOf = ({ id, start, length }: Chunk) => ({
  name: plainId(id),
  start,
  end: start + length,
});

const plainId = (id: string): string => id.replace(/^LIST /, '');

/**
 * The chunks of `expected` by id. Unknown chunks and stray bytes are passed over with a finding:
 * section 10.2 calls them structural errors, but nothing that is read here depends on them.
 *
 * @throws {InputError} `bank-chunk-order` for a chunk that stands twice or too late
 */
const inOrder = (
  path: string,
  { chunks, rest }: Chunks,
  expected: readonly string[],
  findings: Finding[],
): ReadonlyMap<string, Chunk> => {
  const found = new Map<string, Chunk>();
  let last = -1;
  for (const chunk of chunks) {
    const place = expected.indexOf(chunk.id);
    if (place < 0) findings.push(unknown(path, chunk));
    else if (place > last) found.set(chunk.id, chunk);
    else {
      const args = { chunk: plainId(chunk.id) };
      throw inputError('bank-chunk-order', path, args, { byte: chunk.at });
    }
    last = Math.max(last, place);
  }
  if (rest !== null) findings.push(unknown(path, rest));
  return found;
};

const unknown = (path: string, { id, at }: Chunk): Finding =>
  finding('warning', 'bank-chunk-unknown', path, { chunk: plainId(id) }, { byte: at });

const required = (path: string, found: ReadonlyMap<string, Chunk>, id: string): Chunk => {
  const chunk = found.get(id);
  if (chunk === undefined) throw inputError('bank-chunk-missing', path, { chunk: plainId(id) });
  return chunk;
};

/**
 * The version, which must be 2 (section 5.1: the lists are laid out alike within a major version).
 * Later major versions compress the sound, so that sizes in memory can't be told from the lists.
 */
const readVersion = async (
  reader: RangeReader,
  info: readonly Chunk[],
): Promise<BankFile['version']> => {
  const ifil = info.find(({ id }) => id === 'ifil');
  if (ifil === undefined) throw inputError('bank-chunk-missing', reader.path, { chunk: 'ifil' });
  const at = { byte: ifil.at };
  if (ifil.length !== 4) {
    const args = { chunk: 'ifil', bytes: ifil.length, record: 4 };
    throw inputError('bank-record-size', reader.path, args, at);
  }
  const view = littleEndian(await reader.read(ifil.start, 4));
  const version = { major: view.getUint16(0, true), minor: view.getUint16(2, true) };
  if (version.major !== 2) throw inputError('bank-version', reader.path, version, at);
  return version;
};
