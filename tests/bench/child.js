/**
 * What has to run in a process of its own:
 *
 * - `dense READER ROUNDS` reads the dense cue; prints CPU and wall times in milliseconds, and memory
 * - `reel READER FOLDER` reads all cues of a folder and does nothing more
 */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { timed } from './measure.js';

const [task, reader, subject] = process.argv.slice(2);

const readers = {
  keepset: async () => {
    const { readMidi } = await import('../../dist/midi/read-midi.js');
    const { partsOf } = await import('../../dist/midi/parts.js');
    return (bytes) => partsOf(readMidi(bytes, 'cue.mid'));
  },
  'midi-file': async () => {
    const { parseMidi } = await import('midi-file');
    return (bytes) => parseMidi(bytes);
  },
};
const read = await readers[reader]();

if (task === 'dense') {
  const { denseCue } = await import('./dense-cue.js');
  const bytes = denseCue();
  const [cpu, wall] = [[], []];
  for (let round = 0; round < Number(subject); round += 1) {
    const started = performance.now();
    cpu.push(timed(() => read(bytes)));
    wall.push(performance.now() - started);
  }
  console.log(JSON.stringify({ cpu, wall, memory: process.resourceUsage().maxRSS * 1024 }));
} else {
  for (const name of readdirSync(subject)) read(readFileSync(join(subject, name)));
}
