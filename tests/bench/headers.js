import { close, mkdirSync, open, read, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { DiskFiles } from '../../dist/files/disk-files.js';
import { readDocument } from '../../dist/instruments/sfz/text/read-document.js';
import { structureOf } from '../../dist/instruments/sfz/structure/regions.js';
import { loadSamples } from '../../dist/instruments/sfz/samples/sample-files.js';
import { median, milliseconds, ratio, timedLater, times } from './measure.js';

const samples = 20_000;
const frames = 1500;

/** As many files as the reader has open together: the bare loop gets as many. */
const atATime = 16;

/** A WAV of 9 000 bytes of sound, 24-bit stereo; with a loop behind it, out of reach of a first read. */
const wav = (looped) => {
  const text = (letters) => Buffer.from(letters, 'latin1');
  const chunk = (id, data) => {
    const size = Buffer.alloc(4);
    size.writeUInt32LE(data.length);
    return Buffer.concat([text(id), size, data]);
  };
  const fmt = Buffer.alloc(16);
  fmt.writeUInt16LE(1, 0);
  fmt.writeUInt16LE(2, 2);
  fmt.writeUInt32LE(48_000, 4);
  fmt.writeUInt32LE(48_000 * 6, 8);
  fmt.writeUInt16LE(6, 12);
  fmt.writeUInt16LE(24, 14);
  const smpl = Buffer.alloc(36 + 24);
  smpl.writeUInt32LE(1, 28);
  smpl.writeUInt32LE(frames - 1, 36 + 12);
  return chunk(
    'RIFF',
    Buffer.concat([
      text('WAVE'),
      chunk('fmt ', fmt),
      chunk('data', Buffer.alloc(frames * 6)),
      ...(looped ? [chunk('smpl', smpl)] : []),
    ]),
  );
};

const [openFile, readInto, closeFile] = [promisify(open), promisify(read), promisify(close)];

/** Opens each file, reads pages of it, closes it; and no more. */
const bare = (paths, pages) => {
  let next = 0;
  const work = async () => {
    while (next < paths.length) {
      const descriptor = await openFile(paths[next++]);
      for (const page of pages) {
        await readInto(descriptor, new Uint8Array(4096), 0, 4096, page * 4096);
      }
      await closeFile(descriptor);
    }
  };
  return Promise.all(Array.from({ length: atATime }, work));
};

const row = async (what, looped, folder, { rounds, say }) => {
  const place = join(folder, 'samples');
  mkdirSync(place);
  const names = Array.from({ length: samples }, (_, i) => `note-${i}.wav`);
  const bytes = wav(looped);
  for (const name of names) writeFileSync(join(place, name), bytes);
  const root = join(place, 'instrument.sfz');
  writeFileSync(root, names.map((name) => `<region> key=60 sample=${name}\n`).join(''));
  const paths = names.map((name) => join(place, name));
  const disk = new DiskFiles();
  const structure = structureOf(await readDocument(disk, root));
  const tasks = {
    keepset: async () => {
      const loaded = await loadSamples(disk, root, structure);
      const right = loaded.samples.filter((sample) => sample.frames === frames).length;
      if (right !== samples || loaded.findings.length > 0) throw new Error('headers misread');
    },
    // What stands behind the sound is in the third.
    bare: () => bare(paths, looped ? [0, 2] : [0]),
  };
  const [cpu, wall] = [
    { keepset: [], bare: [] },
    { keepset: [], bare: [] },
  ];
  for (let round = -1; round < Math.min(rounds, 11); round += 1) {
    for (const name of round % 2 === 0 ? ['keepset', 'bare'] : ['bare', 'keepset']) {
      const started = performance.now();
      const time = await timedLater(tasks[name]);
      // The first round warms up.
      if (round < 0) continue;
      cpu[name].push(time);
      wall[name].push(performance.now() - started);
    }
  }
  rmSync(place, { recursive: true });
  const reached = ratio(cpu.keepset, cpu.bare);
  say(`${what}: wall clock ${times(ratio(wall.keepset, wall.bare))}`);
  return {
    what,
    ours: milliseconds(median(cpu.keepset)),
    theirs: `open, ${looped ? 'read twice' : 'read'}, close ${milliseconds(median(cpu.bare))}`,
    reached: `${times(reached)} its time`,
    target: 'at most 2 x',
    met: reached <= 2,
  };
};

/** The headers of an instrument's samples against a loop that only opens, reads and closes the files. */
export const headerRows = async (folder, options) => [
  await row(`headers of ${samples} samples`, false, folder, options),
  await row(`the same with loops behind the sound`, true, folder, options),
];
