import { demoFiles } from '../../../src/demo/demo.ts';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { plan } from '../../../src/jobs/plan.ts';
import type { Plan } from '../../../src/keep/plan.ts';
import { cueBytes } from '../../jobs/midi-cue.ts';
import { bank, cue, doubtfulCue, note, plainCue, program } from '../../jobs/small-score.ts';

/** One bank, a doubt, two versions of a cue, and all that can be asked for. */
export const smallPlan = (): Promise<Plan> =>
  plan({
    cues: ['cues'],
    instrument: 'bank.sf2',
    files: new MemoryFiles({
      'bank.sf2': bank(),
      'cues/1m1.mid': plainCue(),
      'cues/1m2 v1.mid': doubtfulCue(),
      'cues/1m2 v2.mid': cue({ name: 'Keys', events: [program(0, 0), note(0, 40)] }),
    }),
    ...{ rare: 5, headroomCurve: true },
  });

const table = `key,articulation,switch,keys,velocities,bytes
a,long,24,58-62,1-127,1000
b,long,24,63-66,1-127,4000
c,short,25,58-66,1-64,8000
d,short,25,58-66,65-127,16000
e,roll,26,60-60,1-127,32000
`;

const template = `
cues: cues/*.mid
machines: { a: { memory: 1 GiB }, b: { memory: 32 KiB } }
players:
  own: { loads: whole, shares: copy, unloads: sample, per-copy: 1 KiB }
  common: { loads: whole, shares: machine, unloads: sample }
instruments:
  horns: { zones: horns.csv, middle-c: C4, machine: a, player: own }
  band: { zones: band.csv, middle-c: C4, machine: b, player: common, measured: { full: 80 KiB } }
routes:
  - { track: 'Hn*', instrument: horns }
  - { track: '*', instrument: band }
pins: [ { instrument: band, articulation: roll } ]
settle: { order: accept }
`;

/** The template of {@link templatePlan} and its instruments. */
export const tableFiles = {
  'keepset.yaml': template,
  'horns.csv': table,
  'band.csv': table,
};

/** Copies with zones of their own, a display that was read, a pin, two machines. */
export const templatePlan = (): Promise<Plan> => {
  const played = (key: number, velocity: number, tick: number) => ({
    ...{ key, velocity, tick, length: 60 },
  });
  return plan({
    files: new MemoryFiles({
      ...tableFiles,
      'cues/1m1.mid': cueBytes([
        { name: 'Hn 1', notes: [played(24, 80, 0), played(60, 80, 120), played(64, 80, 240)] },
        { name: 'Hn 2', notes: [played(25, 80, 0), played(60, 40, 120), played(60, 90, 240)] },
        { name: 'Band', notes: [played(60, 90, 120), played(65, 90, 240), played(61, 90, 300)] },
      ]),
      'cues/1m2.mid': cueBytes([
        { name: 'Hn 1', notes: [played(60, 30, 120)] },
        { name: 'Band', notes: [played(25, 90, 0), played(60, 90, 120)] },
      ]),
    }),
  });
};

export const demoPlan = (): Promise<Plan> =>
  plan({
    template: 'keepset.yaml',
    files: new MemoryFiles(Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes]))),
  });
