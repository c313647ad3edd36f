import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import { report } from '../../src/jobs/report.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { cueBytes, type CueNote } from '../jobs/midi-cue.ts';

/**
 * A rig small enough to work out by hand. Each articulation is one sample that is loaded whole, and a
 * sample is the least that goes, so that memory is the sum of the samples. Invented.
 *
 * Flute on machine a: long 2 MiB, short 5 MiB. Horns on machine b: sustain 3 MiB, staccato 1 MiB,
 * muted 10 MiB. 21 MiB in all.
 */
const mib = 1_048_576;

const horns = `articulation,switch,keys,velocities,sample,bytes
sustain,C0,C3-B4,1-127,sustain.wav,${String(3 * mib)}
staccato,C#0,C3-B4,1-127,staccato.wav,${String(mib)}
muted,D0,C3-B4,1-127,muted.wav,${String(10 * mib)}
`;

/** Muted horns in two layers of 4 MiB: each is less than the short flute, both are more. */
const hornsInLayers = horns.replace(
  /^muted.*$/mu,
  ['1-63', '64-127']
    .map((layer) => `muted,D0,C3-B4,${layer},muted-${layer}.wav,${String(4 * mib)}`)
    .join('\n'),
);

const flute = `articulation,switch,keys,velocities,sample,bytes
long,C0,C4-B5,1-127,long.wav,${String(2 * mib)}
short,C#0,C4-B5,1-127,short.wav,${String(5 * mib)}
`;

const template = (memoryOfB: string): string => `cues: cues/*.mid
machines:
  a: { memory: 16 MiB }
  b: { memory: ${memoryOfB} }
players:
  plain: { loads: whole, per-zone: 0 B, per-copy: 0 B, shares: machine, unloads: sample }
instruments:
  flute: { zones: flute.csv, middle-c: C4, player: plain, machine: a }
  horns: { zones: horns.csv, middle-c: C4, player: plain, machine: b }
routes:
  - { track: 'Flute*', instrument: flute }
  - { track: 'Horns*', instrument: horns }
`;

/** A bar of 4/4 at 480 ticks a quarter, from 1. */
const bar = (number: number): number => (number - 1) * 1920;

const note = (tick: number, key: number): CueNote => ({ tick, length: 240, key, velocity: 80 });

/** C0 is key 12: the switches come a quarter before what they choose. */
const planned = cueBytes([
  { name: 'Flute 1', notes: [note(0, 12), note(480, 72)] },
  {
    name: 'Horns 1',
    notes: [note(0, 12), note(480, 55), note(bar(2), 13), note(bar(2) + 480, 57)],
  },
]);

/** The revision: muted horns in bar 5 beat 2, and a short flute in bar 7 beat 2. */
const revised = cueBytes([
  {
    name: 'Flute 1',
    notes: [note(0, 12), note(480, 72), note(bar(7), 13), note(bar(7) + 480, 74)],
  },
  {
    name: 'Horns 1',
    notes: [note(0, 12), note(480, 55), note(bar(5), 14), note(bar(5) + 480, 60)],
  },
]);

export interface TinyRig {
  /** As a template writes it. */
  readonly memoryOfB: string;
  /** Layers are the least that goes, and muted horns have two of them. */
  readonly inLayers?: boolean;
  /** The revision is one of the planned cues. */
  readonly mutedIsPlayed?: boolean;
  /** The revision is held against the keep file of the first cue. */
  readonly revised?: boolean;
}

export const tinyOverview = async ({
  memoryOfB,
  inLayers = false,
  mutedIsPlayed = false,
  revised: isRevised = false,
}: TinyRig): Promise<Overview> => {
  const rig = {
    'keepset.yaml': inLayers
      ? template(memoryOfB).replace('unloads: sample', 'unloads: layer')
      : template(memoryOfB),
    'horns.csv': inLayers ? hornsInLayers : horns,
    'flute.csv': flute,
    'cues/3m1.mid': planned,
    'later/3m1 v2.mid': revised,
    ...(mutedIsPlayed ? { 'cues/3m2.mid': revised } : {}),
  };
  if (!isRevised) return report({ files: new MemoryFiles(rig) });
  const keep = toJson(withMessages(await plan({ files: new MemoryFiles(rig) })));
  const files = new MemoryFiles({ ...rig, 'keep.json': keep });
  return report({ files, keep: 'keep.json', cues: ['later'] });
};
