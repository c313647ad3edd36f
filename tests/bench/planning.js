import { mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { largeBank, writeReel } from './material.js';
import { alternate, median, milliseconds, times } from './measure.js';
import { child, node, program } from './processes.js';

const megabytes = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;

/** (d) `plan` on a reel of a hundred cues against reading them, as whole processes. */
export const planningRows = ({ cues }, folder, { rounds, say }) => {
  const reel = join(folder, 'reel');
  mkdirSync(reel);
  const size = writeReel(reel, cues);
  const bank = join(folder, 'large.sf2');
  writeFileSync(bank, largeBank());
  const keep = join(folder, 'keep.json');
  const all = alternate(
    {
      start: () => node('-e', '0'),
      reading: () => node(child, 'reel', 'keepset', reel),
      'midi-file': () => node(child, 'reel', 'midi-file', reel),
      planning: () => node(program, 'plan', reel, '-i', bank, '-o', keep, '--quiet'),
    },
    { rounds: Math.min(rounds, 9), warm: 1 },
  );
  const start = median(all.start);
  const over = (name) => median(all[name]) - start;
  const reached = over('planning') / over('reading');
  const gain = over('midi-file') / over('reading');
  say(`the reel holds ${megabytes(size)}, its keep file ${megabytes(statSync(keep).size)}`);
  const less = `less start-up of ${milliseconds(start)}`;
  return [
    {
      what: `plan on 100 cues and 20 480 zones, ${less}`,
      ours: milliseconds(over('planning')),
      theirs: `reading ${milliseconds(over('reading'))}`,
      reached: `${times(reached)} its time`,
      target: 'at most 3 x',
      met: reached <= 3,
    },
    {
      what: `reading the 100 cues once, ${less}`,
      ours: milliseconds(over('reading')),
      theirs: `midi-file ${milliseconds(over('midi-file'))}`,
      reached: `${times(gain)} as fast`,
      target: '',
      met: null,
    },
  ];
};
