import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readKeepFile } from '../../dist/keep/keep-file/read-keep-file.js';
import { alternate, median, milliseconds, ratio, timed, times } from './measure.js';
import { node, program } from './processes.js';

/** The demo's keep file and one of its cues: what a check costs against the plan of the reel. */
export const checkRows = (folder, { rounds }) => {
  const demo = join(folder, 'demo');
  const keep = join(folder, 'keep.json');
  const template = ['--template', join(demo, 'keepset.yaml')];
  const run = (...args) => node(program, ...args);
  run('demo', '--out', demo);
  run('plan', ...template, '-o', keep);
  const cue = join(demo, 'cues', '2m2 The Pilot Boat.mid');
  const processes = alternate(
    {
      plan: () => run('plan', ...template, '--format', 'json'),
      check: () => run('check', cue, '--keep', keep, ...template, '--format', 'json'),
    },
    { rounds: Math.min(rounds, 5) },
  );
  const bytes = new Uint8Array(readFileSync(keep));
  const reading = alternate(
    {
      keepset: () => timed(() => readKeepFile(bytes, keep)),
      json: () => timed(() => JSON.parse(new TextDecoder().decode(bytes))),
    },
    { rounds: Math.min(rounds, 7), warm: 1 },
  );
  return [
    {
      what: 'checking a cue of the demo, as a process',
      ours: milliseconds(median(processes.check)),
      theirs: `planning the reel ${milliseconds(median(processes.plan))}`,
      reached: `${times(ratio(processes.check, processes.plan))} its time`,
      target: '-',
      met: null,
    },
    {
      what: `a keep file of ${(bytes.length / 1e6).toFixed(1)} MB, read and believed`,
      ours: milliseconds(median(reading.keepset)),
      theirs: `parsing its JSON ${milliseconds(median(reading.json))}`,
      reached: `${times(ratio(reading.keepset, reading.json))} its time`,
      target: '-',
      met: null,
    },
  ];
};
