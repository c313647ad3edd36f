import type { InstrumentBytes } from '../keep/plan.ts';
import type { Grain } from '../template/player.ts';
import type { DoubtName } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import type { CellWitness, OverviewRow } from './overview-map.ts';
import type { Playable } from './overview-playable.ts';

export interface OverviewInstrument {
  readonly id: string;
  readonly source: string;
  readonly machine: number;
  readonly player: string;
  readonly unloads: Grain;
  readonly zones: number;
  readonly zonesKept: number;
  readonly samples: number;
  readonly samplesKept: number;
  readonly bytes: InstrumentBytes;
  /** Note-ons sent to it. */
  readonly notes: number;
  readonly copies: readonly {
    readonly name: string;
    readonly notes: number;
    readonly zonesKept: number;
  }[];
  /** Where zones name microphones: how many of each are there and stay. */
  readonly microphones: readonly {
    readonly name: string;
    readonly zones: number;
    readonly zonesKept: number;
  }[];
  /** Doubts that keep something of it, by zones kept for them. */
  readonly doubts: readonly { readonly name: DoubtName; readonly zones: number }[];
  readonly pins: number;
  /** From the lowest key that starts anything to the highest; null: no key does. */
  readonly keys: Range | null;
  readonly articulations: readonly OverviewArticulation[];
  /** What cells refer to. */
  readonly witnesses: readonly CellWitness[];
}

export interface OverviewArticulation {
  readonly name: string;
  readonly switch: string | null;
  /** Notes that start it plainly, and what they play. */
  readonly notes: number;
  readonly keysPlayed: readonly Range[];
  readonly velocities: Range | null;
  readonly zones: number;
  readonly zonesKept: number;
  readonly bytes: { readonly full: number; readonly kept: number };
  /** On whichever copy it is written that can be asked for it. */
  readonly playable: Playable;
  /**
   * Where copies keep zones of their own: what each can still play of it (`copy` is an index into the
   * instrument's `copies`). Empty where all are alike. A copy that its route holds to another articulation
   * is left out.
   */
  readonly copies: readonly { readonly copy: number; readonly playable: Playable }[];
  readonly rows: readonly OverviewRow[];
}
