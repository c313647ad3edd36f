import type { DoubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';

/**
 * The program an instrument compiles to: all that the engine of `playback/` knows of it. Formats
 * hand over this data and never a callback; the engine knows no format.
 */
export interface Program {
  /** Whose state the signals follow: each channel of the copy by itself (a bank), or all as one. */
  readonly scope: 'channel' | 'copy';
  /** Legato pedal (CC68) and mono mode (CC126) start a key again that is still held. */
  readonly retriggers: boolean;
  /**
   * A note-off may let go every strike of its key at once (doubt `engine`), and may come before or
   * behind a pedal that moves on its tick (doubt `order`).
   */
  readonly looseNoteOffs?: true;
  /** What a release starts may cut others short, as what a note starts does. */
  readonly releasesCut?: true;
  readonly signals: readonly Signal[];
  readonly gates: readonly Gate[];
  /** What keeps voices sounding; starts refer to them. */
  readonly holds: readonly Hold[];
  readonly starts: readonly Start[];
  /** Zones and articulations that `starts` refer to, by number from 0. */
  readonly zones: number;
  readonly articulations: number;
}

/** Something whose value at an event decides what starts. Values are whole numbers. */
export type Signal =
  /** Last value of a controller; `initial`: its value before any message, or null for its power-on value. */
  | {
      readonly kind: 'controller';
      readonly number: number;
      readonly initial: number | null;
      /** What it is then for other engines (doubt `engine`). */
      readonly otherInitial?: number;
      /** It chooses articulations, as a keyswitch does. */
      readonly selects?: true;
    }
  /** Pitch bend, -8192 to 8191. */
  | { readonly kind: 'bend' }
  /** Channel pressure, 0-127. */
  | { readonly kind: 'pressure' }
  /** Poly pressure, 0-127: the last one of the event's own key, or of any key. */
  | { readonly kind: 'poly-pressure'; readonly of: 'own-key' | 'any-key' }
  /** Last program change, 0-127. */
  | { readonly kind: 'program' }
  /** Program with the bank it latched: {@link patchValue}. */
  | { readonly kind: 'patch' }
  /** Channel of the event, 1-16; `selects`: it chooses articulations, as a keyswitch does. */
  | { readonly kind: 'channel'; readonly selects?: true }
  /** Tempo at the event in millionths of a beat per minute, rounded. */
  | { readonly kind: 'tempo' }
  /** The note-on before this one, on any key or among `keys`; -1 before the first. */
  | { readonly kind: 'previous-key'; readonly keys?: readonly Range[] }
  | { readonly kind: 'previous-velocity' }
  /** The last key pressed among `keys`; `initial`: before any, or null for none (-1). */
  | { readonly kind: 'switch'; readonly keys: readonly Range[]; readonly initial: number | null }
  /**
   * How many keys among `keys` are held; `own`: the event's own key counts too. With `within` a key
   * counts for so many seconds after it was let go.
   */
  | {
      readonly kind: 'held';
      readonly keys: readonly Range[];
      readonly own: boolean;
      readonly within?: number;
    };

/** Accepts a signal inside `lo` to `hi`; `doubt` is {} for the plain reading. */
export interface Test {
  readonly lo: number;
  readonly hi: number;
  readonly doubt: DoubtSet;
  /** Where another reading looks at another signal than the condition's own. */
  readonly signal?: number;
}

/** Alternative tests: the condition holds when one of them accepts. */
export interface Condition {
  /** Index into {@link Program.signals}. */
  readonly signal: number;
  readonly tests: readonly Test[];
}

/** Conditions that must all hold; none: always open. */
export type Gate = readonly Condition[];

/** Audible while the controller behind `signal` is inside `lo` to `hi` at some time of the voice's life. */
export interface Fade {
  readonly signal: number;
  readonly lo: number;
  readonly hi: number;
}

/** The events a start listens to. */
export type StartEvent =
  /** A key goes down. */
  | 'note-on'
  /** A key goes up, pedals ignored. */
  | 'note-off'
  /** A key goes up and no pedal holds it, or the pedal that held it goes up. */
  | 'release'
  /** A key goes down whose earlier note still sounds: the earlier note is what starts. */
  | 'restrike'
  /** A key goes down while other notes sound: each of them is what starts. */
  | 'cut'
  /** A message sets the signal {@link Start.change}. */
  | 'change';

/** Down while its controller is at `down` or above. */
export interface Pedal {
  readonly controller: number;
  readonly down: number;
  /** Its controller before any message. */
  readonly initial: number;
}

/** One way to read the pedals. */
export interface PedalReading {
  readonly sustain: Pedal | null;
  /** Holds the keys that are down when it goes down. */
  readonly sostenuto: Pedal | null;
  /**
   * What Reset All Controllers does: `standard` lifts the pedals that RP-015 sets to 0, `ignored`
   * none, `all` every one.
   */
  readonly reset: 'standard' | 'ignored' | 'all';
  readonly doubt: DoubtSet;
}

/** What keeps a voice sounding: its key and pedals, or nothing. */
export interface Hold {
  /** Plays to its end, whatever its key does. */
  readonly oneShot: boolean;
  /** Alternatives, exactly one of them plain, which comes first. */
  readonly pedals: readonly PedalReading[];
}

/** Sustain and sostenuto on their standard controllers (MIDI 1.0, controllers 64 and 66). */
export const standardHold: Hold = {
  oneShot: false,
  pedals: [
    {
      sustain: { controller: 64, down: 64, initial: 0 },
      sostenuto: { controller: 66, down: 64, initial: 0 },
      reset: 'standard',
      doubt: 0,
    },
  ],
};

/** One way in which a zone starts to sound. */
export interface Start {
  readonly zone: number;
  readonly articulation: number;
  readonly event: StartEvent;
  /** Index of the signal whose change starts it; only for `change`. */
  readonly change?: number;
  /** Keys; for a change the values that start it. */
  readonly keys: Range;
  /** Velocities of the note-on, for releases too; for a change of poly pressure its keys. */
  readonly velocities: Range;
  /** Index into {@link Program.gates}. */
  readonly gate: number;
  readonly fades: readonly Fade[];
  /** Doubts of the start as a whole. */
  readonly doubt: DoubtSet;
  /** Index into {@link Program.holds}. */
  readonly hold: number;
  /**
   * How long the voice goes on after its release, or a one-shot after its start, in seconds;
   * Infinity: to the end of the cue.
   */
  readonly releaseSeconds: number;
  /** Makes no sound, but stops others by starting. */
  readonly silent?: true;
}

/**
 * Bank and program as one number: programs apart by 2^15, banks (0 to 16383, 128 for drums) within,
 * so that all banks of one program are one range.
 */
export const patchValue = (bank: number, program: number): number => program * 32768 + bank;

/** The program in a {@link patchValue}. */
export const programOf = (patch: number): number => Math.floor(patch / 32768);

/** The bank of a drum channel (SoundFont 2.04, section 7.2). */
export const drumBank = 128;
