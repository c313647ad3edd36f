import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseMidi, writeMidi } from 'midi-file';
import { demoFiles } from '../../dist/demo/demo.js';
import { writeSoundFont } from '../../dist/demo/soundfont-writer.js';

/** Real music, where the package openttd-openmsx put it (see its license.txt). */
const realCues = '/usr/share/games/openttd/baseset/openmsx';
const realBanks = ['/usr/share/sounds/sf2/TimGM6mb.sf2', '/usr/share/sounds/sf2/FluidR3_GM.sf2'];

const demo = () => demoFiles().map(({ path, bytes }) => ({ name: path, bytes }));

/** Ordinary cues: real ones where there are some, else those of the demo. */
export const ordinaryCues = () => {
  if (!existsSync(realCues)) {
    return { from: 'the demo', cues: demo().filter(({ name }) => name.endsWith('.mid')) };
  }
  const names = readdirSync(realCues).filter((name) => name.endsWith('.mid'));
  const cues = names.map((name) => ({ name, bytes: readFileSync(join(realCues, name)) }));
  return { from: 'openmsx', cues };
};

/** Paths of real banks that are there; the demo's bank, written into `folder`, in any case. */
export const banks = (folder) => {
  const path = join(folder, 'harbour.sf2');
  writeFileSync(path, demo().find(({ name }) => name.endsWith('.sf2')).bytes);
  return [path, ...realBanks.filter((bank) => existsSync(bank))];
};

/**
 * A bank of 20 480 instrument zones: 128 presets of 32 key ranges and five dynamics. All zones share
 * one short sample: what costs time are the zones.
 */
export const largeBank = () => {
  const zones = Array.from({ length: 32 * 5 }, (_, i) => {
    const [key, layer] = [Math.floor(i / 5) * 4, i % 5];
    const [low, high] = [Math.floor((layer * 128) / 5), Math.floor(((layer + 1) * 128) / 5) - 1];
    return {
      // keyRange and velRange (SoundFont 2.04, section 8.1.2).
      generators: [
        [43, key | ((key + 3) << 8)],
        [44, low | (high << 8)],
      ],
      target: 0,
    };
  });
  const programs = Array.from({ length: 128 }, (_, program) => program);
  return writeSoundFont({
    ...{ name: 'bench', engine: 'EMU8000', comment: 'made by the bench' },
    samples: [
      {
        ...{ name: 'short', rate: 44_100, key: 60, cents: 0, side: 'mono', partner: 0 },
        ...{ points: new Int16Array(64), loop: [8, 56] },
      },
    ],
    instruments: programs.map((program) => ({ name: `I${program}`, zones })),
    presets: programs.map((program) => ({
      ...{ name: `P${program}`, bank: 0, program },
      zones: [{ generators: [], target: program }],
    })),
  });
};

/** The same music a little different: other keys, except on the drums, and other dynamics. */
const changed = (bytes, by) => {
  const midi = parseMidi(bytes);
  for (const event of midi.tracks.flat()) {
    if (event.type !== 'noteOn' && event.type !== 'noteOff') continue;
    if (event.channel !== 9) event.noteNumber = Math.min(127, Math.max(0, event.noteNumber + by));
    if (event.type === 'noteOn' && event.velocity > 0) {
      event.velocity = Math.min(127, Math.max(1, event.velocity + 3 * by));
    }
  }
  return Uint8Array.from(writeMidi(midi, { running: true, useByte9ForNoteOff: true }));
};

/** A reel of a hundred cues, written into `folder`; the sum of their bytes. */
export const writeReel = (folder, cues) => {
  let bytes = 0;
  for (let i = 0; i < 100; i += 1) {
    const source = cues[i % cues.length].bytes;
    const cue = i < cues.length ? source : changed(source, Math.floor(i / cues.length));
    const [reel, number] = [1 + Math.floor(i / 20), 1 + (i % 20)];
    writeFileSync(join(folder, `${reel}m${number}.mid`), cue);
    bytes += cue.length;
  }
  return bytes;
};
