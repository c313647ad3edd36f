/**
 * `draft BANK OUT BYTES` writes so many bytes of a bank into a folder, in 300 stretches;
 * `loop BANK OUT BYTES` reads and writes them and does nothing more. Prints the most memory it had.
 */
import { closeSync, mkdirSync, openSync, readSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';

const [task, bank, out, bytes] = process.argv.slice(2);
const length = Number(bytes);
const { size } = statSync(bank);

if (task === 'draft') {
  const { FolderDraft } = await import('../../dist/files/folder-draft.js');
  const limits = Array.from({ length: 301 }, (_, i) => Math.floor((length * i) / 300));
  const pieces = limits.slice(1).map((end, i) => {
    const start = limits[i];
    return { kind: 'copy', path: bank, start, length: end - start, size };
  });
  const draft = await FolderDraft.open(out, { force: false, inputs: [bank], bytes: length });
  await draft.write({ path: 'bank.sf2', pieces });
  await draft.finish();
} else {
  mkdirSync(out);
  const buffer = new Uint8Array(2 ** 20);
  const [from, to] = [openSync(bank, 'r'), openSync(join(out, 'bank.sf2'), 'wx')];
  for (let done = 0; done < length;) {
    const read = readSync(from, buffer, 0, Math.min(buffer.length, length - done), done);
    writeSync(to, buffer, 0, read);
    done += read;
  }
  closeSync(from);
  closeSync(to);
}
console.log(process.resourceUsage().maxRSS * 1024);
