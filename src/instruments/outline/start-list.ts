import { doubtSet, type DoubtSet } from '../../terms/doubt.ts';
import type { Range } from '../../terms/range.ts';
import { nowhere } from '../nowhere.ts';
import type { Start, StartEvent } from '../program.ts';
import type { Signals } from '../signals.ts';
import type { LayerReach } from './layer-reach.ts';
import type { OutlineZone } from './outline-zone.ts';

const stretch = doubtSet('stretch');

const anyVelocity: Range = [1, 127];
const anyValue = 127;

/** A way in which a zone starts, for all its velocities and controllers. */
export interface ZoneStart {
  readonly zone: number;
  readonly event: StartEvent;
  readonly keys: readonly Range[];
  readonly gate: number;
  readonly doubt: DoubtSet;
}

const noFades: Pick<LayerReach, 'controllers'> = { controllers: [] };

/** Gathers the starts of an outline; a zone has one for each set of ranges that its layer comes to. */
export class StartList {
  readonly all: Start[] = [];
  readonly #zones: readonly OutlineZone[];
  readonly #signals: Signals;
  /** By zone: 1 once it has a start. */
  readonly #started: Uint8Array;

  /** Zones of a layer share their fades. */
  readonly #fades = new Map<LayerReach['controllers'], Start['fades']>();

  constructor(zones: readonly OutlineZone[], signals: Signals) {
    this.#zones = zones;
    this.#signals = signals;
    this.#started = new Uint8Array(zones.length);
  }

  /** By what is plain of the layer; by what is printed of it under `stretch`. */
  add(start: ZoneStart): void {
    const { layer } = this.#zones[start.zone]!;
    this.#add(start, layer, layer.velocities, start.doubt);
    const { unprinted } = layer;
    if (unprinted !== null)
      this.#add(start, unprinted, unprinted.velocities, start.doubt | stretch);
  }

  /**
   * The same for what comes back to a key that is held. The event tells another note's velocity: any
   * may be meant, under `stretch`. How long the key is held the program does not know: whatever fades it
   * in may come meanwhile.
   */
  addReturn(start: ZoneStart): void {
    const { layer } = this.#zones[start.zone]!;
    this.#add(start, noFades, layer.velocities, start.doubt);
    if (!layer.asksVelocity && layer.unprinted === null) return;
    const printed = layer.unprinted ?? layer;
    if (printed.velocities === null) return;
    this.#add(start, noFades, anyVelocity, start.doubt | stretch);
  }

  /** Zones that nothing starts belong to their articulation all the same: it loads them. */
  close(): void {
    this.#started.forEach((isStarted, zone) => {
      if (isStarted === 0) {
        this.#push({ zone, event: 'note-on', gate: 0, doubt: 0 }, nowhere, anyVelocity, []);
      }
    });
  }

  #add(
    { zone, event, keys, gate }: ZoneStart,
    { controllers }: Pick<LayerReach, 'controllers'>,
    velocities: Range | null,
    doubt: DoubtSet,
  ): void {
    if (velocities === null) return;
    let fades = this.#fades.get(controllers);
    if (fades === undefined) {
      fades = controllers
        .filter(({ range: [lo, hi] }) => lo > 0 || hi < anyValue)
        .map((one) => this.#signals.fade(one));
      this.#fades.set(controllers, fades);
    }
    for (const range of keys) this.#push({ zone, event, gate, doubt }, range, velocities, fades);
  }

  #push(
    start: Omit<ZoneStart, 'keys'>,
    keys: Range,
    velocities: Range,
    fades: Start['fades'],
  ): void {
    this.#started[start.zone] = 1;
    const { articulation } = this.#zones[start.zone]!;
    this.all.push({
      ...start,
      articulation,
      keys,
      velocities,
      fades,
      hold: 0,
      // An outline does not know how long a release goes on.
      releaseSeconds: Infinity,
    });
  }
}
