/**
 * The memory of a reel, straight from the rules: what several cues need together, what a change
 * loads and lets go. Every figure is made anew from the needs, so nothing can be carried along
 * wrongly. Cues are indices into the order of the reel, from 0.
 */
import {
  figure,
  machine,
  type CopyZones,
  type Figure,
  type MachineFigure,
  type MemoryInstrument,
} from './memory.ts';

/** What must be loaded of an instrument whose copies share: one set of zones for all of them. */
export interface NeedTogether {
  readonly zones: readonly number[];
  /**
   * The names of the copies that play. Zones without a copy count one copy. A copy that is named
   * without any zones takes nothing here, but counts where the need is joined with one that has.
   */
  readonly copies: readonly string[];
}

/** What must be loaded of an instrument whose copies hold their own, by the name of the copy. */
export interface NeedApart {
  readonly byCopy: Readonly<Record<string, readonly number[]>>;
}

/** Pins are in it, and it is closed upward to the player's grain. */
export type ReelNeed = NeedTogether | NeedApart;

export interface ReelInstrument {
  readonly id: string;
  readonly machine: string;
  readonly instrument: MemoryInstrument;
  /** One for each cue, in order. */
  readonly needs: readonly ReelNeed[];
}

export interface Reel {
  /** Budget (memory less reserve) in bytes by machine; null: none. */
  readonly machines: Readonly<Record<string, number | null>>;
  readonly instruments: readonly ReelInstrument[];
}

/** Several cues that are loaded at once. */
export type Cues = readonly number[];

/** In likely bytes. */
export interface Change {
  readonly load: number;
  readonly mayGo: number;
}

/** All that any of the needs asks for. They are of one instrument, so of one kind. */
export function join(needs: readonly ReelNeed[]): ReelNeed {
  const together = needs.filter((need) => 'zones' in need);
  const apart = needs.filter((need) => 'byCopy' in need);
  if (together.length > 0 && apart.length > 0) throw new Error('Two kinds of need in one.');
  if (together.length > 0) {
    return {
      zones: unique(together.flatMap(({ zones }) => zones)),
      copies: unique(together.flatMap(({ copies }) => copies)),
    };
  }
  const names = unique(apart.flatMap(({ byCopy }) => Object.keys(byCopy)));
  const zonesOf = (name: string) => unique(apart.flatMap(({ byCopy }) => byCopy[name] ?? []));
  return { byCopy: Object.fromEntries(names.map((name) => [name, zonesOf(name)])) };
}

/** The zones of each copy that is loaded. */
export function copiesOf(need: ReelNeed): CopyZones {
  if ('byCopy' in need) return Object.values(need.byCopy).filter((zones) => zones.length > 0);
  if (need.zones.length === 0) return [];
  return need.copies.length === 0 ? [need.zones] : need.copies.map(() => need.zones);
}

function copiesIn({ needs }: ReelInstrument, cues: Cues): CopyZones {
  return copiesOf(join(cues.map((cue) => needs[cue]!)));
}

/** What an instrument takes by itself when these cues are loaded at once. */
export function instrumentFigure(one: ReelInstrument, cues: Cues): Figure {
  return figure(one.instrument, copiesIn(one, cues));
}

/** What these instruments take on one machine when these cues are loaded at once. */
export function figureTogether(
  instruments: readonly ReelInstrument[],
  cues: Cues,
  budget: number | null = null,
): MachineFigure {
  const placed = instruments.map((one) => ({
    instrument: one.instrument,
    copies: copiesIn(one, cues),
  }));
  return machine(placed, budget);
}

export function machineFigure(reel: Reel, id: string, cues: Cues): MachineFigure {
  return figureTogether(on(reel, id), cues, reel.machines[id] ?? null);
}

/** Likely bytes of all machines. */
export function totalBytes(reel: Reel, cues: Cues): number {
  return sum(machineIds(reel).map((id) => machineFigure(reel, id, cues).likely));
}

/** From what these cues load to what those load; from nothing at the start. */
function change(bytes: (cues: Cues) => number, from: Cues | null, to: Cues): Change {
  if (from === null) return { load: bytes(to), mayGo: 0 };
  const both = bytes([...from, ...to]);
  return { load: Math.max(0, both - bytes(from)), mayGo: Math.max(0, both - bytes(to)) };
}

export function instrumentChange(one: ReelInstrument, from: Cues | null, to: Cues): Change {
  return change((cues) => instrumentFigure(one, cues).likely, from, to);
}

export function machineChange(reel: Reel, id: string, from: Cues | null, to: Cues): Change {
  return change((cues) => machineFigure(reel, id, cues).likely, from, to);
}

/** The changes of all machines, added up. */
export function reelChange(reel: Reel, from: Cues | null, to: Cues): Change {
  const changes = machineIds(reel).map((id) => machineChange(reel, id, from, to));
  return {
    load: sum(changes.map(({ load }) => load)),
    mayGo: sum(changes.map(({ mayGo }) => mayGo)),
  };
}

/**
 * How long a machine loads: its players one after the other. Instruments of one player load
 * together, so that a sample they share is loaded once. Null: a player with bytes to load has no
 * rate.
 */
export function machineSeconds(reel: Reel, id: string, from: Cues | null, to: Cues): number | null {
  const here = on(reel, id);
  const players = unique(here.map(({ instrument }) => instrument.player.id));
  const seconds = players.map((player) => {
    const its = here.filter(({ instrument }) => instrument.player.id === player);
    const { load } = change((cues) => figureTogether(its, cues).likely, from, to);
    if (load === 0) return 0;
    const rate = its[0]!.instrument.player.loadRate;
    return rate === undefined ? null : load / rate;
  });
  return seconds.reduce<number | null>(
    (total, one) => (total === null || one === null ? null : total + one),
    0,
  );
}

/** The slowest machine's: they load at the same time. */
export function changeSeconds(reel: Reel, from: Cues | null, to: Cues): number | null {
  const seconds = machineIds(reel).map((id) => machineSeconds(reel, id, from, to));
  return seconds.reduce(
    (most, one) => (most === null || one === null ? null : Math.max(most, one)),
    0,
  );
}

export function allCues(reel: Reel): number[] {
  return [...(reel.instruments[0]?.needs.keys() ?? [])];
}

/** The cue with the most likely bytes, the first of equals; on one machine, or on all. */
export function peak(reel: Reel, id?: string): number {
  const bytes = (cue: number) =>
    id === undefined ? totalBytes(reel, [cue]) : machineFigure(reel, id, [cue]).likely;
  const [first = 0, ...others] = allCues(reel);
  return others.reduce((best, cue) => (bytes(cue) > bytes(best) ? cue : best), first);
}

export function machineIds(reel: Reel): string[] {
  return Object.keys(reel.machines);
}

function on(reel: Reel, id: string): ReelInstrument[] {
  return reel.instruments.filter((one) => one.machine === id);
}

function unique<Item>(items: readonly Item[]): Item[] {
  return [...new Set(items)];
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
