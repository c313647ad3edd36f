import type { Hit } from './hits.ts';

/** A stroke of the kit: the keys it lies on (General MIDI percussion keys) and how it sounds. */
export interface Stroke {
  readonly name: string;
  /** One sample per layer, shared by all of these keys. */
  readonly keys: readonly number[];
  /** Highest velocity of each layer, softest first. */
  readonly tops: readonly number[];
  readonly hit: Hit;
  /** Strokes that silence one another; 0 for none. */
  readonly choke: number;
}

const drum: Hit = { seconds: 0.28, from: 90, to: 48, body: 1, noise: 0.2, thin: 0, metal: 0 };
const skin: Hit = { ...drum, seconds: 0.22, from: 210, to: 180, body: 0.5, noise: 0.8, thin: 0.3 };
const metal: Hit = {
  ...{ seconds: 0.4, from: 2900, to: 2900, body: 0, noise: 0.7, thin: 0.9, metal: 0.5 },
};

const threeTops: readonly number[] = [50, 95, 127];
const twoTops: readonly number[] = [80, 127];

/** Bass drum, snare and toms, dry. */
export const drums: readonly Stroke[] = [
  { name: 'BD', keys: [35, 36], tops: threeTops, hit: drum, choke: 0 },
  { name: 'Stick', keys: [37], tops: twoTops, hit: { ...skin, seconds: 0.12 }, choke: 0 },
  { name: 'SD', keys: [38, 40], tops: [36, 68, 101, 127], hit: skin, choke: 0 },
  { name: 'Tom Lo', keys: [41, 43], tops: threeTops, hit: { ...drum, from: 120 }, choke: 0 },
  {
    ...{ name: 'Tom Mid', keys: [45, 47], tops: threeTops, choke: 0 },
    hit: { ...drum, from: 170, to: 110 },
  },
  {
    ...{ name: 'Tom Hi', keys: [48, 50], tops: threeTops, choke: 0 },
    hit: { ...drum, from: 240, to: 165 },
  },
];

/** The same drums with the room around them: longer and noisier. */
export const roomDrums: readonly Stroke[] = drums.map((stroke) => ({
  ...stroke,
  name: `${stroke.name} Rm`,
  hit: { ...stroke.hit, seconds: stroke.hit.seconds + 0.06, noise: stroke.hit.noise + 0.15 },
}));

/** Cymbals and small metal: both kits use these. */
export const metals: readonly Stroke[] = [
  { name: 'HH Closed', keys: [42], tops: threeTops, hit: { ...metal, seconds: 0.1 }, choke: 1 },
  { name: 'HH Pedal', keys: [44], tops: twoTops, hit: { ...metal, seconds: 0.12 }, choke: 1 },
  { name: 'HH Open', keys: [46], tops: twoTops, hit: { ...metal, seconds: 0.35 }, choke: 1 },
  { name: 'Crash', keys: [49, 57], tops: twoTops, hit: { ...metal, seconds: 0.42 }, choke: 0 },
  {
    ...{ name: 'Ride', keys: [51, 59], tops: threeTops, choke: 0 },
    hit: { ...metal, from: 3600, metal: 0.9 },
  },
  {
    ...{ name: 'Tamb', keys: [54], tops: twoTops, choke: 0 },
    hit: { ...metal, seconds: 0.2, from: 4300 },
  },
  {
    ...{ name: 'Buoy Bell', keys: [56], tops: twoTops, choke: 0 },
    hit: { ...metal, seconds: 0.4, from: 640, noise: 0.05, metal: 1 },
  },
  {
    ...{ name: 'Triangle', keys: [81], tops: twoTops, choke: 0 },
    hit: { ...metal, from: 3900, noise: 0.02, metal: 1 },
  },
];
