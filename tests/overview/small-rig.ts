import { cueBytes, type CueNote } from '../jobs/midi-cue.ts';

/**
 * A small template with all that a page shows: two machines, four instruments, layers by velocity and
 * by controller, microphones, releases, a pin, a printed track, a doubt, and a revision of a cue that
 * asks for what was dropped. Invented.
 */
const template = `cues: cues/*.mid
machines:
  a: { memory: 40 MB, reserve: 2 MB }
  b: { memory: 12 MB }
players:
  shelf: { loads: whole, per-zone: 500 B, per-copy: 100 kB, shares: machine, unloads: layer }
  pit: { loads: whole, per-zone: 200 B, per-copy: 40 kB, shares: copy, unloads: sample, load-rate: 10 MB/s }
instruments:
  horns: { zones: tables/horns.csv, middle-c: C4, player: shelf, machine: a }
  strings: { zones: tables/strings.csv, middle-c: C4, player: pit, machine: a }
  flute: { zones: tables/flute.csv, middle-c: C4, player: pit, machine: b }
  timpani: { zones: tables/timpani.csv, middle-c: C4, player: pit, machine: b }
routes:
  - { track: 'Horns*', instrument: horns }
  - { track: 'Strings*', instrument: strings }
  - { track: 'Flute*', instrument: flute }
  - { track: 'Timpani print', instrument: timpani, printed: true }
pins: [{ instrument: strings, articulation: trill }]
`;

/**
 * Horns, C4 = 60: sustain in three layers over C3-B4 (48-71), staccato in two, muted in one; switches
 * C0 = 12, C#0 = 13, D0 = 14.
 */
const horns = `articulation,switch,keys,velocities,sample,bytes
sustain,C0,C3-B3,1-47,hn-sus-p-low.wav,1000000
sustain,C0,C4-B4,1-47,hn-sus-p-high.wav,1000000
sustain,C0,C3-B3,48-95,hn-sus-mf-low.wav,2000000
sustain,C0,C4-B4,48-95,hn-sus-mf-high.wav,2000000
sustain,C0,C3-B3,96-127,hn-sus-ff-low.wav,4000000
sustain,C0,C4-B4,96-127,hn-sus-ff-high.wav,4000000
staccato,C#0,C3-B4,1-79,hn-stac-p.wav,300000
staccato,C#0,C3-B4,80-127,hn-stac-f.wav,300000
muted,D0,C3-B4,1-127,hn-mute.wav,5000000
`;

const strings = `articulation,switch,keys,velocities,controllers,microphone,release,sample,bytes
sustain,C0,C3-B3,,1:0-71,close,,st-soft-low-close.wav,700000
sustain,C0,C4-B4,,1:0-71,close,,st-soft-high-close.wav,700000
sustain,C0,C3-B3,,1:56-127,close,,st-loud-low-close.wav,900000
sustain,C0,C4-B4,,1:56-127,close,,st-loud-high-close.wav,900000
sustain,C0,C3-B3,,1:0-71,hall,,st-soft-low-hall.wav,700000
sustain,C0,C4-B4,,1:0-71,hall,,st-soft-high-hall.wav,700000
sustain,C0,C3-B4,,,,yes,st-release.wav,200000
trill,C#0,C4-B4,,,close,,st-trill.wav,600000
`;

const flute = `articulation,switch,keys,velocities,sample,bytes
long,C0,C4-F4,1-127,fl-long-low.wav,500000
long,C0,F#4-B4,1-127,fl-long-high.wav,500000
short,C#0,C4-F4,1-127,fl-short-low.wav,100000
short,C#0,F#4-B4,1-127,fl-short-high.wav,100000
`;

const timpani = `articulation,keys,velocities,sample,bytes
hits,C2-B2,1-63,ti-soft.wav,800000
hits,C2-B2,64-127,ti-loud.wav,1600000
`;

const note = (tick: number, key: number, velocity: number): CueNote => ({
  ...{ tick, key, velocity },
  length: 240,
});

/** The cues by their path. */
export const smallRigCues: Readonly<Record<string, Uint8Array>> = {
  'cues/1m1.mid': cueBytes([
    {
      name: 'Horns 1',
      notes: [note(0, 12, 100), note(480, 50, 40), note(960, 62, 90), note(1920, 50, 70)],
    },
    { name: 'Horns 2', notes: [note(0, 13, 100), note(480, 55, 60), note(960, 67, 110)] },
    { name: 'Strings 1', notes: [note(0, 12, 100), note(1920, 52, 80)] },
    { name: 'Flute 1', notes: [note(0, 12, 100), note(480, 61, 64), note(2400, 62, 64)] },
    { name: 'Timpani print', notes: [note(480, 40, 90)] },
  ]),
  'cues/1m2.mid': cueBytes([
    { name: 'Horns 1', notes: [note(0, 12, 100), note(3840, 55, 80)] },
    // Before its first switch it may be in either articulation.
    { name: 'Flute 1', notes: [note(480, 69, 64), note(1440, 13, 100), note(1920, 60, 64)] },
  ]),
};

/** A later version of the second cue: the horns are muted, and louder than before. */
export const smallRigRevision: Readonly<Record<string, Uint8Array>> = {
  'later/1m2 v2.mid': cueBytes([
    {
      name: 'Horns 1',
      notes: [note(0, 12, 100), note(3840, 55, 120), note(5760, 14, 100), note(7680, 64, 80)],
    },
    { name: 'Flute 1', notes: [note(0, 12, 100), note(480, 69, 64)] },
  ]),
};

/** All files of the rig. */
export const smallRig: Readonly<Record<string, Uint8Array | string>> = {
  'keepset.yaml': template,
  'tables/horns.csv': horns,
  'tables/strings.csv': strings,
  'tables/flute.csv': flute,
  'tables/timpani.csv': timpani,
  ...smallRigCues,
  ...smallRigRevision,
};
