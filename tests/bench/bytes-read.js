import { writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { DiskFiles } from '../../dist/files/disk-files.js';
import { plan } from '../../dist/jobs/plan.js';

/** The disk, and a count of what was read from one file. */
class CountingFiles extends DiskFiles {
  bytes = 0;
  #path;

  constructor(path) {
    super();
    this.#path = path;
  }

  async read(path, offset, length) {
    const bytes = await super.read(path, offset, length);
    if (path === this.#path) this.bytes += bytes.length;
    return bytes;
  }
}

/** Bytes of the nine lists: the data of `LIST pdta` (SoundFont 2.04, section 4.1). */
const listBytes = async (path) => {
  const disk = new DiskFiles();
  const { size } = await disk.info(path);
  for (let at = 12; at < size;) {
    const header = Buffer.from(await disk.read(path, at, 12));
    const length = header.readUInt32LE(4);
    if (header.toString('latin1', 8, 12) === 'pdta') return length - 4;
    at += 8 + length + (length % 2);
  }
  return 0;
};

/** (e) Bytes read of a bank while planning, against its lists. */
export const bytesRows = async ({ cues }, folder, bankPaths) => {
  const cue = join(folder, '1m1.mid');
  writeFileSync(cue, cues[0].bytes);
  const rows = [];
  for (const path of bankPaths) {
    const files = new CountingFiles(path);
    await plan({ cues: [cue], instrument: path, files });
    const { size } = await files.info(path);
    const lists = await listBytes(path);
    const more = files.bytes - lists;
    rows.push({
      what: `bytes read of ${basename(path)}, ${(size / 1e6).toFixed(1)} MB`,
      ours: String(files.bytes),
      theirs: `lists ${lists}`,
      reached: `${more} more`,
      target: 'at most 65 536',
      met: more <= 65_536,
    });
  }
  return rows;
};
