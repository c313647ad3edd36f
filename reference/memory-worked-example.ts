/**
 * A reel of four cues on two machines, small enough for paper: four instruments given as zone
 * tables, on three kinds of player. What each cue needs, what each change loads, how the cues go
 * into loading groups and which instrument should stand elsewhere, all worked out by hand.
 *
 * Source: the music, the tables and the sizes are invented; computed by hand.
 *
 * The rules it works by, in short. Figures of one instrument: as in `template-worked-example.ts`.
 * - Several cues at once: the zones and the copies of all of them. `shares: copy`: by copy.
 *   `shares: machine`: one set of zones, which every copy that plays in any of them holds.
 * - From A to B: load = (A and B) - A, may go = (A and B) - B. The first cue or group loads all of
 *   its own.
 * - A group of two cues or more has to fit every machine on its high figure; one cue alone may
 *   always be a group. Fewest groups; then least loaded at the changes, the first group's own load
 *   apart; then the earliest ends.
 * - Seconds: on a machine the players one after the other, load / load-rate; machines side by side.
 * - Placement: what the reel needs of each instrument, every machine within its budget on the high
 *   figure, least likely bytes moved, then fewest instruments.
 *
 * Workings are in millions of bytes (MB); exported numbers are bytes.
 */
import type { ExampleCue, ExampleEvent, ExampleTrack } from './template-worked-example.ts';

/**
 * Budgets: front 180 - 10 = 170 MB; rear 140 - 10 = 130 MB.
 * Per cue nothing is over; the reel at once is over on `front`.
 */
export const keepsetYaml = `cues: cues/*.mid
reel: [1m1, 1m2, 1m3, 1m4]
machines:
  front: { memory: 180 MB, reserve: 10 MB }
  rear: { memory: 140 MB, reserve: 10 MB }
players:
  shelf:
    loads: whole
    per-zone: 50 kB
    per-copy: 2 MB
    shares: machine
    unloads: articulation
    load-rate: 100 MB/s
  pit:
    loads: streamed
    head: 100000 frames
    width: 32 bit
    per-zone: 20 kB
    per-copy: 4 MB
    shares: copy
    unloads: sample
    load-rate: 50 MB/s
  stage:
    loads: streamed
    head: 3 MB
    width: source
    per-copy: 1 MB
    shares: copy
    unloads: sample
    load-rate: 6 MB/s
defaults: { machine: front }
instruments:
  bowed: { zones: tables/bowed.csv, middle-c: C4, player: shelf }
  brass: { zones: tables/brass.csv, middle-c: C4, player: shelf }
  reeds: { zones: tables/reeds.csv, middle-c: C4, player: pit }
  bells:
    zones: tables/bells.csv
    middle-c: C4
    player: stage
    machine: rear
    measured: { full: 11750000 B }
routes:
  - { track: 'Bowed *', instrument: bowed }
  - { track: 'Brass *', instrument: brass }
  - { track: 'Reeds *', instrument: reeds }
  - { track: Bells, instrument: bells }
`;

/** The same with another memory for `front`; its reserve stays 10 MB. */
export const withFrontMemory = (memory: string): string =>
  keepsetYaml.replace('memory: 180 MB', `memory: ${memory}`);

/**
 * The zone tables by the path that the template names. Middle C is C4 = 60: C3-B3 is 48-59, C4-B4
 * is 60-71, and the switches are C0 = 12, C#0 = 13, D0 = 14, D#0 = 15.
 *
 * bowed: the high tremolo plays the recording of the high sustained zone. Nobody plays harmonics.
 * brass: long, muted, fall. Everything is played somewhere.
 * reeds: no switches; nobody plays the top zone.
 * bells: no switches.
 */
export const tables: Readonly<Record<string, string>> = {
  'tables/bowed.csv': `key,articulation,switch,keys,velocities,sample,bytes
v1,sustain,C0,C3-B3,1-127,bowed-low.wav,36000000
v2,sustain,C0,C4-B4,1-127,bowed-high.wav,24000000
v3,pluck,C#0,C3-B4,1-127,bowed-pluck.wav,14000000
v4,tremolo,D0,C3-B3,1-127,bowed-tremolo.wav,32000000
v5,tremolo,D0,C4-B4,1-127,bowed-high.wav,24000000
v6,harmonic,D#0,C3-B4,1-127,bowed-harmonic.wav,18000000
`,
  'tables/brass.csv': `key,articulation,switch,keys,velocities,sample,bytes
h1,long,C0,C3-B3,1-127,brass-low.wav,25000000
h2,long,C0,C4-B4,1-127,brass-high.wav,15000000
h3,muted,C#0,C3-B4,1-127,brass-muted.wav,48000000
h4,fall,D0,C3-B4,1-127,brass-fall.wav,20000000
`,
  'tables/reeds.csv': `key,keys,velocities,sample,frames,rate,bits,channels
r1,48-55,1-127,reed-low.wav,400000,48000,24,2
r2,56-63,1-127,reed-middle.wav,60000,48000,24,2
r3,64-71,1-127,reed-high.wav,300000,48000,24,1
r4,72-79,1-127,reed-top.wav,500000,48000,24,2
`,
  'tables/bells.csv': `key,keys,velocities,sample,frames,rate,bits,channels
k1,60-67,1-127,bell-low.wav,1000000,48000,24,2
k2,68-75,1-127,bell-middle.wav,400000,48000,24,2
k3,76-83,1-127,bell-high.wav,800000,48000,24,2
`,
};

/**
 * A track with one switch or none, alone on its tick, and after it the notes, one after the other.
 * So nothing is ever in doubt.
 */
function track(
  name: string,
  channel: number,
  switchKey: number | null,
  notes: readonly number[],
): ExampleTrack {
  const on = 0x90 + channel - 1;
  const off = 0x80 + channel - 1;
  const press: ExampleEvent[] =
    switchKey === null
      ? []
      : [
          [0, on, switchKey, 100],
          [240, off, switchKey, 64],
        ];
  const played = notes.flatMap((key, index): ExampleEvent[] => [
    [480 * (index + 1), on, key, 80],
    [480 * (index + 1) + 240, off, key, 64],
  ]);
  return { name, channel, events: [...press, ...played] };
}

/** A copy that has nothing to play in a cue has no track in it. */
export const cues: readonly ExampleCue[] = [
  {
    id: '1m1',
    path: 'cues/1m1.mid',
    tracks: [
      track('Bowed 1', 1, 12, [50, 59]), // sustain: v1
      track('Brass 1', 2, 12, [48, 52]), // long: h1
      track('Brass 2', 3, 14, [60]), // fall: h4
      track('Reeds 1', 4, null, [48, 55]), // r1
      track('Bells', 5, null, [60]), // k1
    ],
  },
  {
    id: '1m2',
    path: 'cues/1m2.mid',
    tracks: [
      track('Bowed 1', 1, 12, [52]), // sustain: v1
      track('Bowed 2', 2, 13, [55, 64]), // pluck: v3
      track('Reeds 1', 3, null, [60]), // r2
      track('Reeds 2', 4, null, [50]), // r1
      track('Bells', 5, null, [75]), // k2
    ],
  },
  {
    id: '1m3',
    path: 'cues/1m3.mid',
    tracks: [
      track('Bowed 1', 1, 14, [48]), // tremolo: v4
      track('Brass 1', 2, 12, [71]), // long: h2
      track('Bells', 5, null, [67, 68]), // k1, k2
    ],
  },
  {
    id: '1m4',
    path: 'cues/1m4.mid',
    tracks: [
      track('Bowed 1', 1, 12, [60]), // sustain: v2
      track('Brass 1', 2, 13, [62]), // muted: h3
      track('Reeds 2', 3, null, [71]), // r3
      track('Bells', 5, null, [76, 83]), // k3
    ],
  },
];

export type InstrumentId = 'bowed' | 'brass' | 'reeds' | 'bells';
export type MachineId = 'front' | 'rear';

/** What a track reaches, and what its copy must hold at the grain of the player, by key. */
interface ExampleNeed {
  readonly reached: readonly string[];
  readonly held: readonly string[];
}

const asPlayed = (...keys: string[]): ExampleNeed => ({ reached: keys, held: keys });

/**
 * By instrument, cue and copy. An articulation goes as a whole on `shelf`: v1 or v2 brings the
 * other, v4 brings v5, h1 or h2 brings the other. `bowed` and `brass` share, so where two copies
 * play, both hold all that either of them is listed with here.
 */
export const needs: Readonly<
  Record<InstrumentId, readonly Readonly<Record<string, ExampleNeed>>[]>
> = {
  bowed: [
    { 'Bowed 1': { reached: ['v1'], held: ['v1', 'v2'] } },
    { 'Bowed 1': { reached: ['v1'], held: ['v1', 'v2'] }, 'Bowed 2': asPlayed('v3') },
    { 'Bowed 1': { reached: ['v4'], held: ['v4', 'v5'] } },
    { 'Bowed 1': { reached: ['v2'], held: ['v1', 'v2'] } },
  ],
  brass: [
    { 'Brass 1': { reached: ['h1'], held: ['h1', 'h2'] }, 'Brass 2': asPlayed('h4') },
    {},
    { 'Brass 1': { reached: ['h2'], held: ['h1', 'h2'] } },
    { 'Brass 1': asPlayed('h3') },
  ],
  reeds: [
    { 'Reeds 1': asPlayed('r1') },
    { 'Reeds 1': asPlayed('r2'), 'Reeds 2': asPlayed('r1') },
    {},
    { 'Reeds 2': asPlayed('r3') },
  ],
  bells: [
    { Bells: asPlayed('k1') },
    { Bells: asPlayed('k2') },
    { Bells: asPlayed('k1', 'k2') },
    { Bells: asPlayed('k3') },
  ],
};

/** Bytes of several cues at once; `low` is `likely` everywhere in this example. */
export interface ExampleFigure {
  readonly likely: number;
  readonly high: number;
}

const sure = (bytes: number): ExampleFigure => ({ likely: bytes, high: bytes });

/** Cues counted from 1, as in 1m1 to 1m4: each alone, runs of two and three, all four. */
export type Run = '1' | '2' | '3' | '4' | '12' | '23' | '34' | '123' | '234' | '1234';

/**
 * bowed: n x (2 + 0.05 x zones) + loads. Loads: low 36, high 24, pluck 14, tremolo 32, harmonic 18.
 * v2 and v5 are one recording.
 *   1     v1 v2,          1 copy:   2.1     + 60                =  62.1
 *   2     v1 v2 v3,       2 copies: 2 x 2.15 + 74               =  78.3
 *   3     v4 v5,          1 copy:   2.1     + 32 + 24           =  58.1
 *   4     v1 v2,          1 copy:   2.1     + 60                =  62.1
 *   12    v1 v2 v3,       2 copies: as 2                        =  78.3
 *   23    v1-v5,          2 copies: 2 x 2.25 + 36 + 24 + 14 + 32 = 4.5 + 106 = 110.5
 *   34    v1 v2 v4 v5,    1 copy:   2.2     + 36 + 24 + 32      =  94.2
 *   123, 234, 1234: as 23                                       = 110.5
 *   full  v1-v6,          2 copies: 2 x 2.3 + 106 + 18          = 128.6
 *
 * brass: the same player. Loads: low 25, high 15, muted 48, fall 20.
 *   1     h1 h2 h4,       2 copies: 2 x 2.15 + 60               =  64.3
 *   2     nobody plays                                          =   0
 *   3     h1 h2,          1 copy:   2.1     + 40                =  42.1
 *   4     h3,             1 copy:   2.05    + 48                =  50.05
 *   12    as 1                                                  =  64.3
 *   23    as 3                                                  =  42.1
 *   34    h1 h2 h3,       1 copy:   2.15    + 88                =  90.15
 *   123   as 1: 3 asks for nothing that 1 has not               =  64.3
 *   234   as 34                                                 =  90.15
 *   1234  h1-h4,          2 copies: 2 x 2.2 + 108               = 112.4, which is also full
 *
 * reeds: 4 + 0.02 x zones + heads, by copy. A head is 100 000 frames of 4 bytes a point: stereo
 * 0.8, mono 0.4. r1 0.8; r2 has only 60 000 frames: 60 000 x 8 = 0.48; r3 0.4; r4 0.8.
 *   1     R1 r1                   4.02 + 0.8                    =   4.82
 *   2     R1 r2 | R2 r1           4.5 + 4.82                    =   9.32
 *   3     nobody plays                                          =   0
 *   4     R2 r3                   4.02 + 0.4                    =   4.42
 *   12    R1 r1 r2 | R2 r1        4.04 + 1.28 = 5.32; + 4.82    =  10.14
 *   23    as 2                                                  =   9.32
 *   34    as 4                                                  =   4.42
 *   123   as 12                                                 =  10.14
 *   234   R1 r2 | R2 r1 r3        4.5 + 4.04 + 1.2 = 4.5 + 5.24 =   9.74
 *   1234  R1 r1 r2 | R2 r1 r3     5.32 + 5.24                   =  10.56
 *   full  2 x (4.08 + 0.8 + 0.48 + 0.4 + 0.8) = 2 x 6.56        =  13.12
 *
 * bells: X = 1 + heads of at most 3, 6 bytes a frame. k1 6 -> 3; k2 400 000 x 6 = 2.4; k3 4.8 -> 3.
 * X(all) = 9.4, read 11.75: likely 11.75 / 9.4 = 1.25 x X; or 11.75 - 9.4 = 2.35, + X: the high one.
 *   1     k1        X 4     likely  5      high  6.35
 *   2     k2        X 3.4   likely  4.25   high  5.75
 *   3     k1 k2     X 6.4   likely  8      high  8.75
 *   4     k3        X 4     likely  5      high  6.35
 *   12, 23, 123     as 3
 *   34, 234, 1234   k1 k2 k3: just what was read, 11.75, which is also full
 */
export const instruments: Readonly<Record<InstrumentId, Readonly<Record<Run, ExampleFigure>>>> = {
  bowed: {
    '1': sure(62_100_000),
    '2': sure(78_300_000),
    '3': sure(58_100_000),
    '4': sure(62_100_000),
    '12': sure(78_300_000),
    '23': sure(110_500_000),
    '34': sure(94_200_000),
    '123': sure(110_500_000),
    '234': sure(110_500_000),
    '1234': sure(110_500_000),
  },
  brass: {
    '1': sure(64_300_000),
    '2': sure(0),
    '3': sure(42_100_000),
    '4': sure(50_050_000),
    '12': sure(64_300_000),
    '23': sure(42_100_000),
    '34': sure(90_150_000),
    '123': sure(64_300_000),
    '234': sure(90_150_000),
    '1234': sure(112_400_000),
  },
  reeds: {
    '1': sure(4_820_000),
    '2': sure(9_320_000),
    '3': sure(0),
    '4': sure(4_420_000),
    '12': sure(10_140_000),
    '23': sure(9_320_000),
    '34': sure(4_420_000),
    '123': sure(10_140_000),
    '234': sure(9_740_000),
    '1234': sure(10_560_000),
  },
  bells: {
    '1': { likely: 5_000_000, high: 6_350_000 },
    '2': { likely: 4_250_000, high: 5_750_000 },
    '3': { likely: 8_000_000, high: 8_750_000 },
    '4': { likely: 5_000_000, high: 6_350_000 },
    '12': { likely: 8_000_000, high: 8_750_000 },
    '23': { likely: 8_000_000, high: 8_750_000 },
    '34': sure(11_750_000),
    '123': { likely: 8_000_000, high: 8_750_000 },
    '234': sure(11_750_000),
    '1234': sure(11_750_000),
  },
};

/**
 * front, bowed + brass + reeds:
 *   1     62.1  + 64.3  + 4.82  = 131.22      34    94.2  + 90.15 + 4.42  = 188.77
 *   2     78.3  + 0     + 9.32  =  87.62      123   110.5 + 64.3  + 10.14 = 184.94
 *   3     58.1  + 42.1  + 0     = 100.2       234   110.5 + 90.15 + 9.74  = 210.39
 *   4     62.1  + 50.05 + 4.42  = 116.57      1234  110.5 + 112.4 + 10.56 = 233.46
 *   12    78.3  + 64.3  + 10.14 = 152.74      full  128.6 + 112.4 + 13.12 = 254.12
 *   23    110.5 + 42.1  + 9.32  = 161.92
 * rear: bells.
 */
export const machines: Readonly<
  Record<
    MachineId,
    {
      /** Memory less reserve. */
      readonly budget: number;
      readonly full: number;
      readonly runs: Readonly<Record<Run, ExampleFigure>>;
      /** The cue with most likely bytes. */
      readonly peak: { readonly cue: string; readonly bytes: number };
      /** The whole reel at once. */
      readonly reelFits: boolean;
      /** Bytes of the whole reel above the budget, on the high figure. */
      readonly over: number;
    }
  >
> = {
  front: {
    budget: 170_000_000,
    full: 254_120_000,
    runs: {
      '1': sure(131_220_000),
      '2': sure(87_620_000),
      '3': sure(100_200_000),
      '4': sure(116_570_000),
      '12': sure(152_740_000),
      '23': sure(161_920_000),
      '34': sure(188_770_000),
      '123': sure(184_940_000),
      '234': sure(210_390_000),
      '1234': sure(233_460_000),
    },
    peak: { cue: '1m1', bytes: 131_220_000 },
    reelFits: false,
    over: 63_460_000, // 233.46 - 170
  },
  rear: {
    budget: 130_000_000,
    full: 11_750_000,
    runs: instruments.bells,
    peak: { cue: '1m3', bytes: 8_000_000 },
    reelFits: true,
    over: 0,
  },
};

/**
 * Both machines. Full 254.12 + 11.75; reel 233.46 + 11.75.
 * 1m1 131.22 + 5 = 136.22 is the peak; 1m2 91.87, 1m3 108.2, 1m4 121.57.
 */
export const total = {
  full: 265_870_000,
  reel: 245_210_000,
  cues: [136_220_000, 91_870_000, 108_200_000, 121_570_000],
  peak: { cue: '1m1', bytes: 136_220_000 },
} as const;

/** From one cue or group to the next, in likely bytes; seconds are exact, not rounded. */
export interface ExampleChange {
  readonly instruments: Readonly<Record<InstrumentId, { load: number; mayGo: number }>>;
  readonly machines: Readonly<Record<MachineId, { load: number; mayGo: number; seconds: number }>>;
  readonly load: number;
  readonly mayGo: number;
  /** The slower machine's. */
  readonly seconds: number;
}

/**
 * The cues one after the other. On front the two instruments of `shelf` load at 100, `reeds` at 50;
 * on rear `bells` load at 6.
 *
 * 1m1 All of it. Front (62.1 + 64.3) / 100 + 4.82 / 50 = 1.264 + 0.0964 = 1.3604; rear 5 / 6.
 * 1m2 bowed 78.3 - 62.1 = 16.2, 78.3 - 78.3 = 0; brass 0, 64.3 - 0; reeds 10.14 - 4.82 = 5.32,
 *     10.14 - 9.32 = 0.82. Front 21.52, 65.12: 152.74 - 131.22, 152.74 - 87.62.
 *     Rear 8 - 5 = 3, 8 - 4.25 = 3.75. Front 0.162 + 0.1064 = 0.2684; rear 3 / 6 = 0.5.
 * 1m3 bowed 110.5 - 78.3 = 32.2, 110.5 - 58.1 = 52.4; brass 42.1, 0; reeds 0, 9.32.
 *     Front 74.3, 61.72: 161.92 - 87.62, 161.92 - 100.2. Rear 8 - 4.25 = 3.75, 0.
 *     Front 0.743; rear 3.75 / 6 = 0.625.
 * 1m4 bowed 94.2 - 58.1 = 36.1, 94.2 - 62.1 = 32.1; brass 90.15 - 42.1 = 48.05,
 *     90.15 - 50.05 = 40.1; reeds 4.42, 0. Front 88.57, 72.2: 188.77 - 100.2, 188.77 - 116.57.
 *     Rear 11.75 - 8 = 3.75, 11.75 - 5 = 6.75. Front 0.8415 + 0.0884 = 0.9299; rear 0.625.
 */
export const changes: readonly ExampleChange[] = [
  {
    instruments: {
      bowed: { load: 62_100_000, mayGo: 0 },
      brass: { load: 64_300_000, mayGo: 0 },
      reeds: { load: 4_820_000, mayGo: 0 },
      bells: { load: 5_000_000, mayGo: 0 },
    },
    machines: {
      front: { load: 131_220_000, mayGo: 0, seconds: 1.3604 },
      rear: { load: 5_000_000, mayGo: 0, seconds: 5 / 6 },
    },
    load: 136_220_000,
    mayGo: 0,
    seconds: 1.3604,
  },
  {
    instruments: {
      bowed: { load: 16_200_000, mayGo: 0 },
      brass: { load: 0, mayGo: 64_300_000 },
      reeds: { load: 5_320_000, mayGo: 820_000 },
      bells: { load: 3_000_000, mayGo: 3_750_000 },
    },
    machines: {
      front: { load: 21_520_000, mayGo: 65_120_000, seconds: 0.2684 },
      rear: { load: 3_000_000, mayGo: 3_750_000, seconds: 0.5 },
    },
    load: 24_520_000,
    mayGo: 68_870_000,
    seconds: 0.5,
  },
  {
    instruments: {
      bowed: { load: 32_200_000, mayGo: 52_400_000 },
      brass: { load: 42_100_000, mayGo: 0 },
      reeds: { load: 0, mayGo: 9_320_000 },
      bells: { load: 3_750_000, mayGo: 0 },
    },
    machines: {
      front: { load: 74_300_000, mayGo: 61_720_000, seconds: 0.743 },
      rear: { load: 3_750_000, mayGo: 0, seconds: 0.625 },
    },
    load: 78_050_000,
    mayGo: 61_720_000,
    seconds: 0.743,
  },
  {
    instruments: {
      bowed: { load: 36_100_000, mayGo: 32_100_000 },
      brass: { load: 48_050_000, mayGo: 40_100_000 },
      reeds: { load: 4_420_000, mayGo: 0 },
      bells: { load: 3_750_000, mayGo: 6_750_000 },
    },
    machines: {
      front: { load: 88_570_000, mayGo: 72_200_000, seconds: 0.9299 },
      rear: { load: 3_750_000, mayGo: 6_750_000, seconds: 0.625 },
    },
    load: 92_320_000,
    mayGo: 78_950_000,
    seconds: 0.9299,
  },
];

/** A way to cut the reel: the runs, and the bytes loaded at the changes between them. */
export interface ExampleGrouping {
  readonly groups: readonly Run[];
  readonly loaded: number;
}

/**
 * Two cues or more at once, against 170 and 130: 12 (152.74) and 23 (161.92) fit, 34 (188.77), 123,
 * 234 and 1234 do not. So two groups are not to be had (1|234, 12|34, 123|4), and three in two ways:
 *   12|3|4  front (184.94 - 152.74) + (188.77 - 100.2) = 32.2 + 88.57 = 120.77
 *           rear  (8 - 8) + (11.75 - 8) = 3.75                        together 124.52
 *   1|23|4  front (184.94 - 131.22) + (210.39 - 161.92) = 53.72 + 48.47 = 102.19
 *           rear  (8 - 5) + (11.75 - 8) = 6.75                        together 108.94
 * To fill each group as far as it goes is the dearer way: 1m3 throws out the sustained strings that
 * 1m4 wants back.
 *
 * At the changes of 1|23|4:
 *   1 -> 23  bowed 110.5 - 62.1 = 48.4, 0; brass 64.3 - 64.3 = 0, 64.3 - 42.1 = 22.2;
 *            reeds 10.14 - 4.82 = 5.32, 10.14 - 9.32 = 0.82. Front 53.72, 23.02. Rear 3, 0.
 *            Front 0.484 + 0.1064 = 0.5904; rear 0.5.
 *   23 -> 4  bowed 0, 110.5 - 62.1 = 48.4; brass 90.15 - 42.1 = 48.05, 40.1; reeds
 *            9.74 - 9.32 = 0.42, 9.74 - 4.42 = 5.32. Front 48.47, 93.82. Rear 3.75, 6.75.
 *            Front 0.4805 + 0.0084 = 0.4889; rear 0.625: here the small machine is the slow one.
 */
export const grouping: ExampleGrouping & {
  /** The other allowed way with as many groups. */
  readonly other: ExampleGrouping;
  /** Into each group, in order; the first loads what `1m1` does. */
  readonly changes: readonly ExampleChange[];
} = {
  groups: ['1', '23', '4'],
  loaded: 108_940_000,
  other: { groups: ['12', '3', '4'], loaded: 124_520_000 },
  changes: [
    changes[0]!,
    {
      instruments: {
        bowed: { load: 48_400_000, mayGo: 0 },
        brass: { load: 0, mayGo: 22_200_000 },
        reeds: { load: 5_320_000, mayGo: 820_000 },
        bells: { load: 3_000_000, mayGo: 0 },
      },
      machines: {
        front: { load: 53_720_000, mayGo: 23_020_000, seconds: 0.5904 },
        rear: { load: 3_000_000, mayGo: 0, seconds: 0.5 },
      },
      load: 56_720_000,
      mayGo: 23_020_000,
      seconds: 0.5904,
    },
    {
      instruments: {
        bowed: { load: 0, mayGo: 48_400_000 },
        brass: { load: 48_050_000, mayGo: 40_100_000 },
        reeds: { load: 420_000, mayGo: 5_320_000 },
        bells: { load: 3_750_000, mayGo: 6_750_000 },
      },
      machines: {
        front: { load: 48_470_000, mayGo: 93_820_000, seconds: 0.4889 },
        rear: { load: 3_750_000, mayGo: 6_750_000, seconds: 0.625 },
      },
      load: 52_220_000,
      mayGo: 100_570_000,
      seconds: 0.625,
    },
  ],
};

/**
 * What the reel needs: bowed 110.5, brass 112.4, reeds 10.56, bells 11.75. Front has to lose 63.46:
 * reeds alone are too little, bowed or brass enough, and rear has room for either:
 *   bowed  front 112.4 + 10.56 = 122.96, rear 110.5 + 11.75 = 122.25: moves 110.5
 *   brass  front 110.5 + 10.56 = 121.06, rear 112.4 + 11.75 = 124.15: moves 112.4
 */
export const placement = {
  moves: [{ instrument: 'bowed', from: 'front', to: 'rear', bytes: 110_500_000 }],
  bytes: 110_500_000,
  machines: { front: sure(122_960_000), rear: sure(122_250_000) },
} as const;

/**
 * Another memory for `front`, everything else as it was.
 *
 * 200 MB, budget 190: 34 (188.77) and 123 (184.94) fit too, 234 and 1234 do not. Two groups:
 *   12|34   front 233.46 - 152.74 = 80.72; rear 11.75 - 8 = 3.75: 84.47
 *   123|4   front 233.46 - 184.94 = 48.52; rear 3.75:             52.27
 * The one whose first group ends later is the cheaper.
 *
 * 130 MB, budget 120: every pair is too large, and 1m1 alone takes 131.22, 11.22 too much. Loaded
 * at the changes: 24.52 + 78.05 + 92.32 = 194.89. No placement fits. Without bowed, front takes
 * 122.96, without brass 121.06; with reeds on rear as well, rear takes 122.25 + 10.56 = 132.81 or
 * 124.15 + 10.56 = 134.71, above 130; both bowed and brass on rear are 222.9. With bells on front
 * and either of them beside it, front takes 110.5 + 11.75 = 122.25 or more.
 */
export const otherMemories: readonly {
  readonly memory: string;
  readonly budget: number;
  readonly best: ExampleGrouping;
  readonly next: ExampleGrouping | null;
  /** Cues that do not fit front even alone, and the bytes missing. */
  readonly missing: Readonly<Record<string, number>>;
  /** Which instrument moves to rear; null: no placement fits. */
  readonly moves: InstrumentId | null;
}[] = [
  {
    memory: '200 MB',
    budget: 190_000_000,
    best: { groups: ['123', '4'], loaded: 52_270_000 },
    next: { groups: ['12', '34'], loaded: 84_470_000 },
    missing: {},
    moves: 'bowed',
  },
  {
    memory: '130 MB',
    budget: 120_000_000,
    best: { groups: ['1', '2', '3', '4'], loaded: 194_890_000 },
    next: null,
    missing: { '1m1': 11_220_000 },
    moves: null,
  },
];
