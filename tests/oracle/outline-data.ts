/**
 * What the naive player of outlines reads: an outline near its YAML, with every shorthand filled in
 * and null where the outline says nothing. Keys are MIDI keys, so no octave convention is needed.
 */
import type { SfzDoubts, SfzEvent, SfzReel } from './sfz-data.ts';

export type Limits = readonly [lowest: number, highest: number];

/** `none`: sounds whatever is chosen; null: what selects it is not known. Channels are 1-16. */
export type OutlineSwitch =
  | { readonly kind: 'key'; readonly key: number }
  | { readonly kind: 'program'; readonly program: number }
  | { readonly kind: 'controller'; readonly number: number; readonly values: Limits }
  | { readonly kind: 'channel'; readonly channel: number }
  | { readonly kind: 'none' }
  | null;

/** An axis of layers: by velocity, or by the controller of this number. */
export interface OutlineAxis {
  readonly of: 'velocity' | number;
  /** A number of layers: their borders are not printed. */
  readonly layers: readonly Limits[] | number;
}

export interface OutlineRoundRobins {
  readonly count: number;
  /** null: nothing is said of it. */
  readonly borrow: number | null;
}

export interface OutlineReleases {
  readonly at: 'release' | 'note-off' | null;
  readonly layers: readonly OutlineAxis[];
  readonly roundRobins: OutlineRoundRobins;
}

export interface OutlineLegato {
  /** Semitones, both directions; null: one recording for all. */
  readonly intervals: number | null;
  /** Seconds for which a key still counts as held. */
  readonly overlap: number | null;
  readonly returns: boolean | null;
  readonly layers: readonly OutlineAxis[];
  readonly roundRobins: OutlineRoundRobins;
}

export interface OutlineConditions {
  readonly velocity: Limits | null;
  readonly controllers: readonly (readonly [number: number, values: Limits])[];
  readonly pressure: Limits | null;
  readonly held: Limits | null;
}

export interface OutlineArticulation {
  readonly name: string;
  readonly switch: OutlineSwitch;
  readonly keys: readonly Limits[] | null;
  /** Ascending. */
  readonly sampled: readonly number[] | null;
  readonly stretch: 'up' | 'down' | 'nearest' | null;
  readonly layers: readonly OutlineAxis[];
  readonly roundRobins: OutlineRoundRobins;
  readonly releases: OutlineReleases | null;
  readonly legato: OutlineLegato | null;
  readonly when: OutlineConditions | 'player-decides' | null;
  readonly microphones: readonly string[];
}

export interface OutlineData {
  readonly articulations: readonly OutlineArticulation[];
}

/** Events, cues and doubts are those of the naive SFZ player, whose pedals and fades are used here. */
export type OutlineEvent = SfzEvent;
export type OutlineReel = SfzReel;
export type OutlineDoubts = SfzDoubts;

const once: OutlineRoundRobins = { count: 1, borrow: null };

/** An articulation of which only the name is known, but for what is given. */
export function articulation(
  name: string,
  given: Partial<OutlineArticulation> = {},
): OutlineArticulation {
  return {
    name,
    switch: null,
    keys: null,
    sampled: null,
    stretch: null,
    layers: [],
    roundRobins: once,
    releases: null,
    legato: null,
    when: null,
    microphones: [],
    ...given,
  };
}

export function releases(given: Partial<OutlineReleases> = {}): OutlineReleases {
  return { at: null, layers: [], roundRobins: once, ...given };
}

export function legato(given: Partial<OutlineLegato> = {}): OutlineLegato {
  const unknown = { intervals: null, overlap: null, returns: null };
  return { ...unknown, layers: [], roundRobins: once, ...given };
}

export function conditions(given: Partial<OutlineConditions>): OutlineConditions {
  return { velocity: null, controllers: [], pressure: null, held: null, ...given };
}

/** Key switches that no articulation says it can be played on: as notes they are nothing. */
export function silentKeysOf(outline: OutlineData): number[] {
  const played = outline.articulations.flatMap(({ keys }) => keys ?? []);
  return switchKeysOf(outline).filter(
    (key) => !played.some(([lowest, highest]) => lowest <= key && key <= highest),
  );
}

/** All key switches of an outline, each once. */
export function switchKeysOf({ articulations }: OutlineData): number[] {
  return [
    ...new Set(
      articulations.flatMap((one) => (one.switch?.kind === 'key' ? [one.switch.key] : [])),
    ),
  ];
}
