/**
 * A template with two machines, three players and three instruments given as zone tables, small
 * enough for paper: twelve zones, two cues, every byte worked out by hand.
 *
 * Source: the music, the tables and the sizes are invented; computed by hand.
 *
 * The rules it works by, in short
 * - A key name needs the key that is middle C: with C4 = 60, C0 is 12; with C3 = 60, C0 is 24.
 * - Each track is one copy of its instrument through the whole reel, and each cue starts in an
 *   unknown state. A keyswitch stays in force until the next one. Before the first one nothing
 *   plays in the plain reading; under `start-state` the articulations play that this copy uses
 *   elsewhere in the reel.
 * - load(sample): whole = frames x channels x width, width as stored or the player's; streamed =
 *   the smaller of that and the head.
 * - X(zones of one copy) = per copy + per zone x zones + the loads of their different samples.
 * - `shares: copy`: each copy holds its own zones. `shares: machine`: n copies hold the same zones,
 *   n x (per copy + per zone x zones) + the loads once.
 * - A reading is what the player shows for one copy. Two readings: the line through both, fixed + k
 *   x X. One reading of a loaded copy: likely 0 + (reading / X) x X, and possibly (reading - X) + X;
 *   low and high are the lowest and the highest of the two. A copy that holds exactly what was read
 *   costs the reading.
 * - A machine fits when the high figure is not above memory less reserve.
 */

/** A note-on or note-off: tick, status byte with the channel, two data bytes. */
export type ExampleEvent = readonly [tick: number, status: number, data1: number, data2: number];

/** A track as it stands in the cue's file. */
export interface ExampleTrack {
  readonly name: string;
  /** Counted from 1; the status bytes agree with it. */
  readonly channel: number;
  readonly events: readonly ExampleEvent[];
}

/** A cue, to be written as a format 1 file. */
export interface ExampleCue {
  readonly id: string;
  /** Where the template looks for it, relative to the template's folder. */
  readonly path: string;
  readonly tracks: readonly ExampleTrack[];
}

export const ticksPerQuarter = 480;

/**
 * `left` is for the viols and the drum, `right` for the reeds alone.
 * Budgets: left 1 400 000 - 200 000 = 1 200 000; right 200 000 - 30 000 = 170 000.
 * The readings are chosen so that the factors come out plain; the workings are further down.
 */
export const keepsetYaml = `cues: cues/*.mid
reel: [1m1, 1m2]
machines:
  left: { memory: 1400 kB, reserve: 200 kB }
  right: { memory: 200 kB, reserve: 30 kB }
players:
  shelf: { loads: whole, per-zone: 500 B, per-copy: 100 kB, shares: machine, unloads: articulation }
  pit:
    loads: streamed
    head: 1000 frames
    width: 32 bit
    per-zone: 200 B
    per-copy: 40 kB
    shares: copy
    unloads: sample
  stage:
    { loads: streamed, head: 64 KiB, width: source, per-copy: 8 KiB, shares: copy, unloads: layer }
defaults: { machine: left }
instruments:
  viols: { zones: tables/viols.csv, middle-c: C4, player: shelf }
  reeds:
    zones: tables/reeds.csv
    middle-c: C3
    player: pit
    machine: right
    measured: { full: 104700 B }
  drum:
    zones: tables/drum.csv
    middle-c: C4
    player: stage
    measured: { empty: 20000 B, full: 244080 B }
routes:
  - { track: 'Viols *', instrument: viols }
  - { track: 'Reeds *', instrument: reeds }
  - { track: Drum, instrument: drum }
`;

/**
 * The zone tables by the path that the template names.
 *
 * viols, C4 = 60: C3-B3 is 48-59, C4-B4 is 60-71; switches C0 = 12, C#0 = 13, D0 = 14. The tremolo
 * zone plays the recording of the low sustained one.
 * reeds, C3 = 60: C3-F3 is 60-65, F#3-B3 is 66-71; switches C0 = 24, C#0 = 25, D0 = 26.
 * drum: two layers, soft 1-63 in two zones and loud 64-127 in one; no switch.
 */
export const tables: Readonly<Record<string, string>> = {
  'tables/viols.csv': `key,articulation,switch,keys,velocities,sample,bytes
v1,sustain,C0,C3-B3,1-127,viol-low.wav,400000
v2,sustain,C0,C4-B4,1-127,viol-high.wav,300000
v3,pluck,C#0,C3-B4,1-127,viol-pluck.wav,120000
v4,tremolo,D0,C3-B3,1-127,viol-low.wav,400000
`,
  'tables/reeds.csv': `key,articulation,switch,keys,velocities,sample,frames,rate,bits,channels
r1,long,C0,C3-F3,1-127,reed-long-low.wav,90000,48000,24,2
r2,long,C0,F#3-B3,1-127,reed-long-high.wav,80000,48000,24,2
r3,short,C#0,C3-B3,1-127,reed-short.wav,600,48000,24,2
r4,flutter,D0,C3-F3,1-127,reed-flutter-low.wav,50000,48000,24,1
r5,flutter,D0,F#3-B3,1-127,reed-flutter-high.wav,50000,48000,24,1
`,
  'tables/drum.csv': `key,keys,velocities,sample,frames,rate,bits,channels
d1,36-47,1-63,drum-soft-low.wav,20000,44100,16,2
d2,48-59,1-63,drum-soft-high.wav,10000,44100,16,2
d3,36-59,64-127,drum-loud.wav,30000,44100,24,2
`,
};

/**
 * The reel. No two events of a copy share a tick, there are no controllers, and every note ends, so
 * the start of the second cue of `Reeds 1` is the only thing in doubt.
 */
export const cues: readonly ExampleCue[] = [
  {
    id: '1m1',
    path: 'cues/1m1.mid',
    tracks: [
      {
        name: 'Viols 1',
        channel: 1,
        events: [
          [0, 0x90, 12, 100], // C0: sustain
          [240, 0x80, 12, 64],
          [480, 0x90, 50, 90], // v1
          [960, 0x80, 50, 64],
        ],
      },
      {
        name: 'Viols 2',
        channel: 1,
        events: [
          [0, 0x90, 13, 100], // C#0: pluck
          [240, 0x90, 13, 0], // velocity 0 ends the note and is no switch
          [480, 0x90, 64, 70], // v3
          [720, 0x90, 64, 0], // velocity 0 ends the note
        ],
      },
      {
        name: 'Reeds 1',
        channel: 1,
        events: [
          [0, 0x90, 24, 100], // C0: long
          [240, 0x80, 24, 64],
          [480, 0x90, 60, 80], // r1
          [960, 0x80, 60, 64],
        ],
      },
      {
        name: 'Reeds 2',
        channel: 1,
        events: [
          [0, 0x90, 26, 100], // D0: flutter
          [240, 0x80, 26, 64],
          [480, 0x90, 65, 80], // r4, its highest key
          [960, 0x80, 65, 64],
        ],
      },
      {
        name: 'Drum',
        channel: 10,
        events: [
          [480, 0x99, 40, 50], // d1
          [600, 0x89, 40, 64],
        ],
      },
    ],
  },
  {
    id: '1m2',
    path: 'cues/1m2.mid',
    tracks: [
      {
        name: 'Viols 1',
        channel: 1,
        events: [
          [0, 0x90, 12, 100], // C0: sustain
          [240, 0x80, 12, 64],
          [480, 0x90, 59, 90], // v1, its highest key
          [960, 0x80, 59, 64],
        ],
      },
      {
        name: 'Viols 2',
        channel: 1,
        events: [
          [0, 0x90, 13, 100], // C#0: pluck
          [240, 0x80, 13, 64],
          [480, 0x90, 71, 1], // v3, its highest key
          [720, 0x80, 71, 64],
        ],
      },
      {
        name: 'Reeds 1',
        channel: 1,
        events: [
          // No switch yet. This copy uses long (in 1m1) and short (below), never flutter: under
          // start-state the note reaches r2 (long) or r3 (short), in the plain reading nothing.
          [480, 0x90, 70, 100],
          [960, 0x80, 70, 64],
          [1440, 0x90, 25, 100], // C#0: short
          [1680, 0x80, 25, 64],
          [1920, 0x90, 61, 60], // r3, so r3 is played and start-state says nothing new about it
          [2400, 0x80, 61, 64],
        ],
      },
      {
        name: 'Reeds 2',
        channel: 1,
        events: [
          [0, 0x90, 26, 100], // D0: flutter
          [240, 0x80, 26, 64],
          [480, 0x90, 62, 80], // r4
          [960, 0x80, 62, 64],
        ],
      },
      {
        name: 'Drum',
        channel: 10,
        events: [
          [480, 0x99, 45, 63], // d1, at the top of its velocities
          [600, 0x89, 45, 64],
        ],
      },
    ],
  },
];

/** Why a zone stays, and its doubt sets: `[]` inside is the plain reading. */
export interface ExampleKept {
  readonly key: string;
  readonly reasons: readonly string[];
  readonly doubts: readonly (readonly string[])[];
}

/** All in bytes; `low` and `high` are about `kept`. */
export interface ExampleBytes {
  readonly full: number;
  readonly reached: number;
  readonly kept: number;
  readonly low: number;
  readonly high: number;
}

export interface ExampleInstrument {
  /** Computed; or fitted: to readings, of which there are so many. */
  readonly basis: 'computed' | 'fitted';
  readonly readings: number;
  readonly bytes: ExampleBytes;
  readonly zones: number;
  readonly samples: number;
  readonly samplesKept: number;
  /** What each copy holds, by track name, at the grain of its player. */
  readonly copies: Readonly<Record<string, readonly string[]>>;
  readonly kept: readonly ExampleKept[];
  readonly dropped: readonly string[];
}

const played = (key: string): ExampleKept => ({ key, reasons: ['played'], doubts: [[]] });
const byGrain = (key: string): ExampleKept => ({ key, reasons: ['grain'], doubts: [] });

/**
 * viols: whole, shared by the copies of the machine, unloads articulations. Two copies.
 *   Loads: low 400 000, high 300 000, pluck 120 000; all three 820 000. v4 brings no sample of its
 *   own: its recording is v1's.
 *   full, 4 zones:     2 x 100 000 + 2 x 4 x 500 + 820 000 = 200 000 + 4 000 + 820 000 = 1 024 000
 *   reached, v1 v3:    2 x 100 000 + 2 x 2 x 500 + 400 000 + 120 000 = 200 000 + 2 000 + 520 000
 *                      = 722 000
 *   The grain: sustain brings v2; pluck is complete; tremolo is not needed and goes.
 *   kept, v1 v2 v3:    2 x 100 000 + 2 x 3 x 500 + 820 000 = 200 000 + 3 000 + 820 000 = 1 023 000
 *   Both copies hold all three, though `Viols 1` only plays sustain and `Viols 2` only pluck.
 *   Nothing was measured: low = high = kept.
 */
const viols: ExampleInstrument = {
  basis: 'computed',
  readings: 0,
  bytes: { full: 1_024_000, reached: 722_000, kept: 1_023_000, low: 1_023_000, high: 1_023_000 },
  zones: 4,
  samples: 3,
  samplesKept: 3,
  copies: { 'Viols 1': ['v1', 'v2', 'v3'], 'Viols 2': ['v1', 'v2', 'v3'] },
  kept: [played('v1'), byGrain('v2'), played('v3')],
  dropped: ['v4'],
};

/**
 * reeds: streamed with a head of 1000 frames, 32 bit = 4 bytes, copies apart, unloads samples.
 *   Head, stereo: 1000 x 2 x 4 = 8 000; mono: 1000 x 1 x 4 = 4 000.
 *   Loads: r1 90 000 x 8 = 720 000 -> 8 000; r2 80 000 x 8 = 640 000 -> 8 000; r3 600 x 8 = 4 800,
 *   shorter than the head, -> 4 800; r4 and r5 50 000 x 4 = 200 000 -> 4 000 each. All: 28 800.
 *   X(all) = 40 000 + 5 x 200 + 28 800 = 69 800. Read for a full copy: 104 700.
 *   One reading: likely 104 700 / 69 800 = 1.5 x X; or a fixed 104 700 - 69 800 = 34 900, + X.
 *   The worst distance of the reading from the likely line is 0.
 *   full: each copy holds what was read: 2 x 104 700 = 209 400.
 *   Reeds 1 holds r1, r3 (played) and r2 (start-state):
 *     X = 40 000 + 3 x 200 + 8 000 + 8 000 + 4 800 = 61 400; likely 92 100; or 34 900 + X = 96 300.
 *   Reeds 2 holds r4:
 *     X = 40 000 + 1 x 200 + 4 000 = 44 200; likely 66 300; or 34 900 + X = 79 100.
 *   A sample can go by itself, so reached = kept.
 *   kept: 92 100 + 66 300 = 158 400, which is the lower line; high: 96 300 + 79 100 = 175 400.
 *   No copy holds r5: it is the one dropped.
 */
const reeds: ExampleInstrument = {
  basis: 'fitted',
  readings: 1,
  bytes: { full: 209_400, reached: 158_400, kept: 158_400, low: 158_400, high: 175_400 },
  zones: 5,
  samples: 5,
  samplesKept: 4,
  copies: { 'Reeds 1': ['r1', 'r2', 'r3'], 'Reeds 2': ['r4'] },
  kept: [
    played('r1'),
    { key: 'r2', reasons: ['start-state'], doubts: [['start-state']] },
    played('r3'),
    played('r4'),
  ],
  dropped: ['r5'],
};

/**
 * drum: streamed with a head of 64 KiB = 65 536, width as stored, unloads layers. One copy.
 *   Loads: d1 20 000 x 2 x 2 = 80 000 -> 65 536; d2 10 000 x 2 x 2 = 40 000, shorter than the head,
 *   -> 40 000; d3 30 000 x 2 x 3 = 180 000 -> 65 536. All: 171 072. 8 KiB a copy = 8 192.
 *   X(all) = 8 192 + 171 072 = 179 264.
 *   Two readings: X = 0 shows 20 000, X = 179 264 shows 244 080: fixed 20 000,
 *   k = (244 080 - 20 000) / 179 264 = 224 080 / 179 264 = 1.25. Both lie on the line: low = high.
 *   full: what was read, 244 080.
 *   reached, d1:    X = 8 192 + 65 536 = 73 728; 20 000 + 1.25 x 73 728 = 20 000 + 92 160 = 112 160
 *   The grain: the soft layer brings d2; the loud layer goes.
 *   kept, d1 d2:    X = 8 192 + 65 536 + 40 000 = 113 728; 20 000 + 142 160 = 162 160
 */
const drum: ExampleInstrument = {
  basis: 'fitted',
  readings: 2,
  bytes: { full: 244_080, reached: 112_160, kept: 162_160, low: 162_160, high: 162_160 },
  zones: 3,
  samples: 3,
  samplesKept: 2,
  copies: { Drum: ['d1', 'd2'] },
  kept: [played('d1'), byGrain('d2')],
  dropped: ['d3'],
};

export const instruments: Readonly<Record<'viols' | 'reeds' | 'drum', ExampleInstrument>> = {
  viols,
  reeds,
  drum,
};

export interface ExampleMachine {
  /** Memory less reserve. */
  readonly budget: number;
  readonly bytes: Omit<ExampleBytes, 'reached'>;
  readonly fits: boolean;
}

/**
 * left: viols + drum.
 *   full 1 024 000 + 244 080 = 1 268 080 (would not fit 1 200 000);
 *   kept, low, high 1 023 000 + 162 160 = 1 185 160: fits.
 * right: reeds. The likely 158 400 is within 170 000, the high 175 400 is not: does not fit.
 */
export const machines: Readonly<Record<'left' | 'right', ExampleMachine>> = {
  left: {
    budget: 1_200_000,
    bytes: { full: 1_268_080, kept: 1_185_160, low: 1_185_160, high: 1_185_160 },
    fits: true,
  },
  right: {
    budget: 170_000,
    bytes: { full: 209_400, kept: 158_400, low: 158_400, high: 175_400 },
    fits: false,
  },
};

/**
 * The price of start-state: what goes when `Reeds 1` no longer holds r2. Its X falls by one zone and
 * one head, 200 + 8 000 = 8 200, to 53 200; likely 1.5 x 8 200 = 12 300. One doubt: nothing to list
 * together, and all of caution costs the same 12 300.
 */
export const doubts = {
  prices: [{ name: 'start-state', settled: null, zones: 1, bytes: 12_300 }],
  together: [],
  all: 12_300,
} as const;

/**
 * The same with `settle: { start-state: plain }`: nothing else changes than
 *   Reeds 1 with r1, r3: X = 40 000 + 2 x 200 + 8 000 + 4 800 = 53 200; likely 79 800; or 88 100.
 *   reeds: 79 800 + 66 300 = 146 100; high 88 100 + 79 100 = 167 200, which fits 170 000.
 */
export const settledPlain = {
  reeds: { full: 209_400, reached: 146_100, kept: 146_100, low: 146_100, high: 167_200 },
  reedsDropped: ['r2', 'r5'],
  rightFits: true,
} as const;

/**
 * full      1 024 000 + 209 400 + 244 080 = 1 477 480
 * reached     722 000 + 158 400 + 112 160 =   992 560
 * kept      1 023 000 + 158 400 + 162 160 = 1 343 560
 * saved     1 477 480 - 1 343 560         =   133 920
 * zones 4 + 5 + 3, kept 3 + 4 + 2; samples 3 + 5 + 3, kept 3 + 4 + 2.
 */
export const total = {
  bytes: { full: 1_477_480, reached: 992_560, kept: 1_343_560, saved: 133_920 },
  zones: 12,
  zonesKept: 9,
  samples: 11,
  samplesKept: 9,
} as const;
