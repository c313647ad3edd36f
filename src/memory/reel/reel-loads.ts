import type { Figure } from '../figure.ts';
import { memoryOf, type InstrumentMemory } from '../loaded-memory.ts';
import type { LoadedInstrument } from '../loaded.ts';
import { machineMemory } from '../machine-memory.ts';
import { loadedFor, noNeed, type Loadable, type Need } from './need.ts';
import { NeedTable } from './need-table.ts';

/** An instrument in its machine, and what each cue needs of it. */
export interface ReelMember extends Loadable {
  /** Index of its machine. */
  readonly machine: number;
  /** By cue. */
  readonly needs: readonly Need[];
}

/** What is loaded at some time: for each member a number that its table of needs has given. */
export type State = readonly number[];

/**
 * What a change from one state to the next takes. Before `mayGo` is unloaded, both are there at once:
 * what is needed then = what was + `load` = what will be + `mayGo`.
 */
export interface Change {
  /** Bytes that are not there yet. The first time, all that is needed. */
  readonly load: number;
  /** Bytes that the next does not need. The first time, none. */
  readonly mayGo: number;
}

/**
 * Memory of any cues of a reel that are loaded together. Each figure is worked out once: whoever looks
 * for groups asks for the same ones many times.
 */
export class ReelLoads {
  readonly members: readonly ReelMember[];
  readonly #tables: readonly NeedTable[];
  readonly #cues: readonly State[];
  readonly #lots: Lots;

  /** @param cues how many there are */
  constructor(members: readonly ReelMember[], cues: number) {
    this.members = members;
    this.#tables = members.map(() => new NeedTable());
    this.#cues = Array.from({ length: cues }, (_, cue) =>
      members.map(({ needs }, m) => this.#tables[m]!.numberOf(needs[cue]!)),
    );
    this.#lots = new Lots(this);
  }

  /** Nothing is loaded: where a reel has no cues. */
  get nothing(): State {
    return this.members.map((member, m) => this.#tables[m]!.numberOf(noNeed(member)));
  }

  /** What one cue needs. */
  cue(cue: number): State {
    return this.#cues[cue]!;
  }

  join(a: State, b: State): State {
    return a.map((need, m) => this.#tables[m]!.join(need, b[m]!));
  }

  need(member: number, state: State): Need {
    return this.#tables[member]!.need(state[member]!);
  }

  loaded(member: number, state: State): LoadedInstrument {
    return loadedFor(this.members[member]!, this.need(member, state));
  }

  /** An instrument by itself: samples that others hold too count in full. */
  instrument(member: number, state: State): InstrumentMemory {
    return memoryOf(this.loaded(member, state));
  }

  machine(machine: number, state: State): Figure {
    return this.#lots.figure(this.#lots.ofMachine(machine), state);
  }

  /** @param before null: nothing is there yet */
  machineChange(machine: number, before: State | null, next: State): Change {
    return this.#change(this.#lots.ofMachine(machine), before, next);
  }

  /** An instrument by itself. */
  instrumentChange(member: number, before: State | null, next: State): Change {
    return this.#change({ key: `member ${String(member)}`, members: [member] }, before, next);
  }

  /**
   * How long a change takes: players of one machine load one after the other, machines at the same
   * time. null: a player that has something to load has no load-rate.
   */
  seconds(before: State | null, next: State): number | null {
    let longest = 0;
    for (const machine of new Set(this.members.map((member) => member.machine))) {
      let seconds = 0;
      for (const lot of this.#lots.ofPlayers(machine)) {
        const { load } = this.#change(lot, before, next);
        if (load === 0) continue;
        const { loadRate } = this.members[lot.members[0]!]!.player;
        if (loadRate === null) return null;
        seconds += load / loadRate;
      }
      longest = Math.max(longest, seconds);
    }
    return longest;
  }

  #change(lot: Lot, before: State | null, next: State): Change {
    const after = this.#lots.figure(lot, next).bytes;
    if (before === null) return { load: after, mayGo: 0 };
    const both = this.#lots.figure(lot, this.join(before, next)).bytes;
    // A reading of the player's display may say less of a larger state.
    return {
      load: Math.max(0, both - this.#lots.figure(lot, before).bytes),
      mayGo: Math.max(0, both - after),
    };
  }
}

/** Members that are measured together. */
interface Lot {
  readonly key: string;
  readonly members: readonly number[];
}

/** Machines, and the players on them, with the figures that were asked for. */
class Lots {
  readonly #loads: ReelLoads;
  readonly #figures = new Map<string, Figure>();

  constructor(loads: ReelLoads) {
    this.#loads = loads;
  }

  ofMachine(machine: number): Lot {
    return this.#lot(`machine ${String(machine)}`, (one) => one.machine === machine);
  }

  ofPlayers(machine: number): readonly Lot[] {
    const here = this.#loads.members.filter((one) => one.machine === machine);
    return [...new Set(here.map(({ player }) => player.id))].map((id) =>
      this.#lot(
        `player ${String(machine)} ${id}`,
        (one) => one.machine === machine && one.player.id === id,
      ),
    );
  }

  readonly #lots = new Map<string, Lot>();

  #lot(key: string, isMember: (one: ReelMember) => boolean): Lot {
    let lot = this.#lots.get(key);
    if (lot === undefined) {
      const members = this.#loads.members.flatMap((one, m) => (isMember(one) ? [m] : []));
      this.#lots.set(key, (lot = { key, members }));
    }
    return lot;
  }

  figure({ key, members }: Lot, state: State): Figure {
    const at = `${key} ${members.map((m) => state[m]).join(' ')}`;
    let figure = this.#figures.get(at);
    if (figure === undefined) {
      figure = machineMemory(members.map((m) => this.#loads.loaded(m, state)));
      this.#figures.set(at, figure);
    }
    return figure;
  }
}
