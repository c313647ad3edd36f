import { closeSync, openSync, rmSync, writeSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { alternate, milliseconds, times } from './measure.js';
import { node } from './processes.js';

const child = fileURLToPath(import.meta.resolve('./trim-child.js'));
const mebibyte = 2 ** 20;

/** A file like a large bank, with sound that no disk can leave out. */
const writeBank = (path, size) => {
  const block = Buffer.from(
    Uint8Array.from({ length: mebibyte }, (_, i) => (i * 7 + (i >> 9)) & 255),
  );
  const descriptor = openSync(path, 'w');
  for (let done = 0; done < size; done += mebibyte) {
    block.writeUInt32LE(done / mebibyte, 0);
    writeSync(descriptor, block);
  }
  closeSync(descriptor);
};

/** Most memory that a process ever had, in bytes. */
const peak = (...args) => {
  const { stdout, status, stderr } = spawnSync(process.execPath, [child, ...args], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
  return Number(stdout);
};

/** Copying a bank in some hundred stretches against a loop that reads and writes as many bytes. */
export const trimRows = (folder, { quick, rounds }) => {
  const size = (quick ? 256 : 2048) * mebibyte;
  const bank = join(folder, 'long.sf2');
  const out = join(folder, 'trimmed');
  writeBank(bank, size);
  const run = (task) => () => {
    const time = node(child, task, bank, out, String(size));
    rmSync(out, { recursive: true });
    return time;
  };
  const cpu = alternate(
    { draft: run('draft'), loop: run('loop') },
    { rounds: Math.min(rounds, quick ? 9 : 5), warm: 1 },
  );
  const memory = peak('draft', bank, out, String(size));
  rmSync(out, { recursive: true });
  const empty = peak('draft', bank, out, String(mebibyte));
  rmSync(out, { recursive: true });
  rmSync(bank);
  // A write costs up to ten times as much where the system has to fetch the memory for it first, by turns
  // for one and the other: the best of each is what they cost themselves.
  const [ours, theirs] = [Math.min(...cpu.draft), Math.min(...cpu.loop)];
  const reached = ours / theirs;
  const grown = Math.max(0, memory - empty) / mebibyte;
  return [
    {
      what: `writing ${size / mebibyte} MiB of a bank in 300 stretches, as a process`,
      ours: milliseconds(ours),
      theirs: `read, write ${milliseconds(theirs)}`,
      reached: `${times(reached)} its time`,
      target: 'at most 1.5 x',
      met: reached <= 1.5,
    },
    {
      what: 'memory for it',
      ours: `${Math.round(memory / mebibyte)} MiB`,
      theirs: `for 1 MiB ${Math.round(empty / mebibyte)} MiB`,
      reached: `${grown.toFixed(1)} MiB more`,
      target: 'at most 64 MiB',
      met: grown <= 64,
    },
  ];
};
