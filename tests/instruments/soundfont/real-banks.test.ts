import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { hydraLists } from '../../../reference/soundfont-2.04.ts';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readSoundFont } from '../../../src/instruments/soundfont/read.ts';
import { needs } from '../../tools.ts';
import { digest } from './reading.ts';

/**
 * Real banks as Debian packs them. `counts` are the records of their lists with the terminal one, as
 * the size of each chunk in a hex dump says; `brokenLinks` counts stereo headers in the same way.
 */
const banks = [
  {
    path: '/usr/share/sounds/sf2/TimGM6mb.sf2',
    package: 'timgm6mb-soundfont',
    counts: { phdr: 137, inst: 211, ibag: 2064, igen: 39_230, shdr: 521 },
    brokenLinks: 0,
  },
  {
    path: '/usr/share/sounds/sf2/FluidR3_GM.sf2',
    package: 'fluid-soundfont-gm',
    counts: { phdr: 190, inst: 194, ibag: 2819, igen: 22_464, shdr: 1419 },
    brokenLinks: 970,
  },
] as const;

/** A list's bytes, found by its id from the end of the file: the sound may hold any bytes. */
const listOf = (bytes: Buffer, id: string): Buffer => {
  const at = bytes.lastIndexOf(Buffer.from(id, 'latin1'));
  return bytes.subarray(at + 8, at + 8 + bytes.readUInt32LE(at + 4));
};

/** The records of a list without the terminal one. */
const recordsOf = (bytes: Buffer, id: string): readonly Buffer[] => {
  const data = listOf(bytes, id);
  const size = hydraLists.find((list) => list.id === id)!.recordBytes;
  return Array.from({ length: data.length / size - 1 }, (_, i) =>
    data.subarray(i * size, (i + 1) * size),
  );
};

const nameOf = (record: Buffer): string => record.toString('latin1', 0, 20).replace(/\0.*$/s, '');

describe.each(banks)('$path', ({ path, package: from, counts, brokenLinks }) => {
  const runs = needs(path, from);
  const bytes = runs ? readFileSync(path) : Buffer.alloc(0);
  const files = new MemoryFiles({ 'bank.sf2': bytes });
  const reading = runs ? readSoundFont(files, 'bank.sf2', null, digest) : null;
  const bank = async () => (await reading)!;

  test.runIf(runs)('its lists are as long as a hex dump says', () => {
    for (const [id, count] of Object.entries(counts)) {
      expect([id, recordsOf(bytes, id).length + 1]).toEqual([id, count]);
    }
  });

  test.runIf(runs)('reads the lists and little else', async () => {
    await bank();
    const lists = hydraLists.reduce((sum, { id }) => sum + listOf(bytes, id).length, 0);
    const read = files.bytesRead('bank.sf2');
    expect(read).toBeGreaterThanOrEqual(lists);
    expect(read).toBeLessThan(lists + 1024);
  });

  test.runIf(runs)('has every sample of shdr, by name and length', async () => {
    const { samples } = await bank();
    expect(samples.map(({ name, frames, present }) => [name, frames, present])).toEqual(
      recordsOf(bytes, 'shdr').map((record, i) => [
        `${String(i)}:${nameOf(record)}`,
        record.readUInt32LE(24) - record.readUInt32LE(20),
        true,
      ]),
    );
    expect(new Set(samples.map(({ width }) => width))).toEqual(new Set([2]));
  });

  test.runIf(runs)('has a zone for every sampleID generator', async () => {
    const { zones } = await bank();
    const ids = recordsOf(bytes, 'igen').filter((record) => record.readUInt16LE(0) === 53);
    expect(zones.flatMap(({ samples }) => samples)).toEqual(
      ids.map((record) => record.readUInt16LE(2)),
    );
  });

  test.runIf(runs)('has every preset of phdr, by number and name', async () => {
    const { articulations } = await bank();
    const presets = recordsOf(bytes, 'phdr').map((record) => ({
      name: nameOf(record),
      program: record.readUInt16LE(20),
      bank: record.readUInt16LE(22),
    }));
    presets.sort((a, b) => a.bank - b.bank || a.program - b.program);
    expect(articulations.map(({ name }) => name)).toEqual(
      presets.map(
        ({ name, program, bank: number }) => `${String(number)}:${String(program)} ${name}`,
      ),
    );
  });

  test.runIf(runs)(`has ${String(brokenLinks)} broken stereo links`, async () => {
    const { findings, samples } = await bank();
    expect(findings.map(({ code, args }) => [code, args])).toEqual(
      brokenLinks === 0 ? [] : [['bank-links-broken', { links: brokenLinks }]],
    );
    const stereo = recordsOf(bytes, 'shdr').filter((record) =>
      [2, 4].includes(record.readUInt16LE(44)),
    );
    const paired = samples.filter(({ partner }) => partner !== null);
    expect(paired.length + brokenLinks).toBe(stereo.length);
    for (const [index, { partner }] of samples.entries()) {
      if (partner !== null) expect(samples[partner]!.partner).toBe(index);
    }
  });

  const lists = runs && needs('fluidsynth', 'fluidsynth');
  test.runIf(lists)('has the presets that FluidSynth lists', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'keepset-'));
    try {
      writeFileSync(join(folder, 'commands'), 'inst 1\nquit\n');
      const { stdout } = spawnSync(
        'fluidsynth',
        ['-n', '-i', '-q', '-a', 'file', '-o', `audio.file.name=${join(folder, 'out.wav')}`].concat(
          ['-f', join(folder, 'commands'), path],
        ),
        { encoding: 'latin1', timeout: 30_000, maxBuffer: 1 << 20 },
      );
      const listed = [...stdout.matchAll(/^(\d+)-(\d+) (.*)$/gm)];
      const { articulations } = await bank();
      expect(articulations.map(({ name }) => name)).toEqual(
        listed.map((m) => `${String(Number(m[1]))}:${String(Number(m[2]))} ${m[3]!}`),
      );
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
