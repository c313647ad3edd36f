/** The smallest thing a player can unload. */
export type Grain = 'sample' | 'layer' | 'articulation' | 'microphone' | 'instrument';

/** The start of a streamed sample that a player holds in memory. */
export type Head =
  | { readonly unit: 'bytes'; readonly bytes: number }
  | { readonly unit: 'frames'; readonly frames: number }
  | { readonly unit: 'seconds'; readonly seconds: number };

/** The kind of program that plays an instrument: how it loads, shares and unloads (design, section 7). */
export interface Player {
  readonly id: string;
  readonly loads: 'whole' | 'streamed';
  /** What is held of each sample where `loads` is `streamed`; null elsewhere. */
  readonly head: Head | null;
  /** Bytes of one sample point in memory; `source`: as the file stores it. */
  readonly width: 'source' | number;
  /** What a byte of sample, as it is computed, really takes; fitted to readings of several instruments. */
  readonly factor: number;
  /** Bytes for each loaded zone, in each copy. */
  readonly perZone: number;
  /** Bytes for each loaded copy. */
  readonly perCopy: number;
  /** `machine`: copies of one definition hold each sample once; `copy`: each copy holds its own. */
  readonly shares: 'copy' | 'machine';
  readonly unloads: Grain;
  /** Bytes that it loads in a second; null: not known. */
  readonly loadRate: number | null;
}

/** Where no template says otherwise: samples whole, shared, each by itself. */
export const defaultPlayer: Player = {
  id: 'default',
  loads: 'whole',
  head: null,
  width: 'source',
  factor: 1,
  perZone: 0,
  perCopy: 0,
  shares: 'machine',
  unloads: 'sample',
  loadRate: null,
};
