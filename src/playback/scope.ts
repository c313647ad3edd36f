import { selects } from '../instruments/switches.ts';
import type { Program, Signal } from '../instruments/program.ts';
import { powerOnValue, resetValue } from '../terms/controllers.ts';
import { doubtSet } from '../terms/doubt.ts';
import { contains } from '../terms/range.ts';
import type { Alternative, Alternatives, AlternativesTable } from './alternatives.ts';
import type { Bands } from './bands.ts';
import { Cell } from './cell.ts';
import { fadingSignals } from './fading-signals.ts';
import type { Choice } from './first-moments.ts';
import { HeldKeys, type HeldKey } from './held-keys.ts';
import { HeldSignal } from './held-signal.ts';
import { KeyLog } from './key-log.ts';
import { KeyedCell } from './keyed-cell.ts';
import type { PatchNow, PatchSignal } from './patch-signal.ts';
import type { Moment } from './zone-usage.ts';

const startState = doubtSet('start-state');
const noSwitch = doubtSet('no-switch');
const engine = doubtSet('engine');
const slackDoubt = doubtSet('slack');

/** No switch pressed yet, no note before. */
const none = -1;

/** A switch that no one has touched: it may stand where the copy puts it elsewhere, or anywhere. */
const notSent: readonly Alternative[] = [
  { value: 'chosen', doubt: startState },
  { value: 'unchosen', doubt: noSwitch },
];

/** What an event finds at its place in file order: a part per signal of the program. */
export interface Snapshot {
  readonly parts: readonly (Alternatives | PatchNow | number)[];
  /** What each fading signal was before it became what it is; null: always so. */
  readonly previous: ReadonlyMap<number, Alternatives | null>;
  /** The state this is if nothing else happens on its tick; -1: not asked yet. */
  state: number;
  /** What a voice starts with in that state; null: not asked yet, or nothing fades. */
  moments: readonly Moment[] | null;
}

/** The signals of a program as one copy, or one channel of it, lives through them. */
export class Scope {
  readonly held = new HeldKeys();
  readonly #log: KeyLog;
  readonly #signals: readonly Signal[];
  readonly #bands: readonly Bands[];
  readonly #table: AlternativesTable;
  readonly #patch: PatchSignal | null;
  readonly #cells: readonly (Cell | HeldSignal | KeyedCell | null)[];
  /** Those that a tick takes through several values. */
  readonly #ticking: readonly (Cell | KeyedCell)[];
  readonly #chosen: readonly Set<number>[];
  readonly #fading: readonly number[];
  readonly #perEvent: boolean;
  readonly #switches: boolean;
  readonly #remembers: boolean;
  readonly #counts: boolean;
  readonly #holds: boolean;
  readonly #onTouch: (scope: Scope) => void;
  readonly #slack: number;
  readonly #ofController = new Map<number, readonly number[]>();
  #snapshot: Snapshot | null = null;
  #touched = false;

  /**
   * @param holds keep account of held keys, also where no signal asks for them
   * @param slack seconds for which switches remember what they were
   */
  constructor(
    program: Program,
    bands: readonly Bands[],
    table: AlternativesTable,
    patch: PatchSignal | null,
    holds: boolean,
    slack: number,
    onTouch: (scope: Scope) => void,
  ) {
    this.#slack = slack;
    this.#signals = program.signals;
    this.#bands = bands;
    this.#table = table;
    this.#patch = patch;
    this.#log = new KeyLog(longestWindow(program));
    this.#cells = program.signals.map((signal, i) => this.#cellOf(signal, bands[i]!));
    this.#ticking = this.#cells.filter((cell) => cell instanceof Cell || cell instanceof KeyedCell);
    this.#chosen = program.signals.map(() => new Set());
    this.#fading = fadingSignals(program);
    const has = (...kinds: readonly Signal['kind'][]): boolean =>
      program.signals.some(({ kind }) => kinds.includes(kind));
    this.#perEvent = has('channel', 'tempo', 'held', 'poly-pressure');
    this.#switches = has('switch');
    this.#remembers = has('previous-key', 'previous-velocity');
    this.#counts = has('held');
    this.#holds = holds || this.#counts;
    this.#onTouch = onTouch;
  }

  /** The plain value of a signal now, as the lowest value of its band; 0 for those without one. */
  plainValue(signal: number): number {
    const cell = this.#cells[signal];
    return cell instanceof Cell ? (cell.now.list[0]!.value as number) : 0;
  }

  /** What a signal may be here; a plain 0 for those without alternatives of their own. */
  present(signal: number): Alternatives {
    const cell = this.#cells[signal];
    return cell instanceof Cell ? cell.now : this.#table.single(0);
  }

  /** What a signal was before the last message for it. */
  previous(signal: number): Alternatives {
    const cell = this.#cells[signal];
    return cell instanceof Cell ? cell.from : this.present(signal);
  }

  /** {@link Cell.withinTick} of a signal. */
  withinTick(signal: number, from: number | null): readonly Choice[] {
    const cell = this.#cells[signal];
    return cell instanceof Cell ? cell.withinTick(from) : [];
  }

  /** {@link Cell.mayBecome} of a signal. */
  mayBecome(signal: number): Alternatives | null {
    const cell = this.#cells[signal];
    return cell instanceof Cell ? cell.mayBecome : null;
  }

  /** What fading signals may have been before, for an event that saw `snapshot`; its tick must be over. */
  seenPrevious({ previous }: Snapshot, signal: number): Alternatives | null {
    const cell = this.#cells[signal];
    return cell instanceof Cell ? cell.seenPrevious(previous.get(signal)!) : null;
  }

  chosen(signal: number): readonly number[] {
    return [...this.#chosen[signal]!].sort((a, b) => a - b);
  }

  /** Sets every signal of a kind that `matches` to `value`; returns the signals set. */
  set(matches: (signal: Signal) => boolean, value: number, by?: number): readonly number[] {
    const changed = this.#matching(matches);
    for (const signal of changed) this.#set(signal, value, by);
    return changed;
  }

  /** The same for the signals of one controller, of which there are many messages. */
  setController(number: number, value: number): readonly number[] {
    let changed = this.#ofController.get(number);
    if (changed === undefined) {
      changed = this.#matching((one) => one.kind === 'controller' && one.number === number);
      this.#ofController.set(number, changed);
    }
    for (const signal of changed) this.#set(signal, value);
    return changed;
  }

  /** Sets the poly pressure of one key. */
  setPolyPressure(key: number, value: number): readonly number[] {
    const changed = this.set((signal) => signal.kind === 'poly-pressure', value);
    const own = this.#signals.flatMap((_, i) => {
      const cell = this.#cells[i];
      if (!(cell instanceof KeyedCell)) return [];
      cell.set(key, this.#table.single(this.#bands[i]!.lowest(value)));
      this.#touch();
      return [i];
    });
    return [...changed, ...own];
  }

  /** Reset All Controllers: as RP-015 says, or as other players do: everything, or nothing (`engine`). */
  resetControllers(): readonly number[] {
    return this.#reset((signal) => (signal.kind === 'controller' ? resetValue(signal.number) : 0));
  }

  /** A system reset puts controllers back to what they were at power-on. */
  systemReset(): void {
    this.#reset(initialOf);
  }

  /** A tick begins, in seconds: only asked where a signal depends on time. */
  arrive(seconds: number): void {
    this.#log.arrive(seconds);
  }

  press(channel: number, key: number, velocity: number): void {
    if (this.#switches) this.set((signal) => isSwitch(signal, key), key);
    if (this.#counts) this.#noteKey(true, channel, key);
    if (this.#holds) this.held.press(channel, key, velocity);
  }

  /** To be called after the note itself has been looked at: it is the previous one from here on. */
  afterNote(key: number, velocity: number, event: number): void {
    if (!this.#remembers) return;
    this.set((signal) => remembersKey(signal, key), key, event);
    this.set(({ kind }) => kind === 'previous-velocity', velocity, event);
  }

  lift(channel: number, key: number): void {
    if (this.#counts) this.#noteKey(false, channel, key);
    this.held.lift(channel, key);
  }

  clear(channel: number): void {
    if (this.#counts) {
      for (const held of this.held.all) {
        if (held.channel === channel) this.#noteKey(false, channel, held.key);
      }
    }
    this.held.clear(channel);
  }

  /** The patch of one of the scope's channels has changed. */
  patchChanged(): void {
    this.#touch();
  }

  /** What it is, when nothing has changed since {@link now} was last asked; else null. */
  get steady(): Snapshot | null {
    return this.#snapshot;
  }

  /** @param tempo millionths of a beat per minute at this place */
  now(own: HeldKey, tempo: number): Snapshot {
    if (this.#snapshot !== null) return this.#snapshot;
    const held = this.#counts ? this.held.all : [];
    const parts = this.#signals.map((signal, i) => {
      const cell = this.#cells[i]!;
      if (cell instanceof Cell) return cell.now;
      if (cell instanceof HeldSignal) return cell.count(held, own);
      if (cell instanceof KeyedCell) return cell.now(own.key);
      if (signal.kind === 'patch') return this.#patch!.now(own.channel);
      return signal.kind === 'tempo' ? tempo : own.channel + 1;
    });
    const previous = new Map(
      this.#fading.map((signal) => {
        const cell = this.#cells[signal];
        return [signal, cell instanceof Cell ? cell.previous : null];
      }),
    );
    const snapshot = { parts, previous, state: -1, moments: null };
    if (!this.#perEvent) this.#snapshot = snapshot;
    return snapshot;
  }

  /**
   * The alternatives of each signal for an event that saw `snapshot`; its tick must be over.
   *
   * @param change the signal that the event itself has set, or -1: no doubt about that one
   */
  seen({ parts }: Snapshot, own: HeldKey, event: number, change = none): readonly Alternatives[] {
    return parts.map((part, i) => {
      if (i === change) return this.#table.single(own.key);
      const cell = this.#cells[i]!;
      if (cell instanceof Cell) return cell.seen(part as Alternatives, event);
      if (cell instanceof HeldSignal) return cell.seen(part as number, own);
      if (cell instanceof KeyedCell) return cell.seen(part as Alternatives, own.key);
      if (this.#signals[i]!.kind === 'patch') {
        return this.#patch!.seen(own.channel, part as PatchNow);
      }
      return this.#table.single(this.#bands[i]!.lowest(part as number));
    });
  }

  /**
   * Adds to what an event saw all that switches were between two moments, in seconds: track delays
   * that were not exported move switch and note against each other.
   */
  withSlack(
    seen: readonly Alternatives[],
    own: HeldKey,
    from: number,
    to: number,
  ): readonly Alternatives[] {
    return seen.map((alternatives, i) => {
      const cell = this.#cells[i];
      if (cell instanceof Cell) {
        return this.#table.join(alternatives, cell.during(from, to), slackDoubt);
      }
      return this.#signals[i]!.kind === 'patch'
        ? this.#patch!.withSlack(own.channel, alternatives, from, to)
        : alternatives;
    });
  }

  /** True when something on the current tick may have changed what its events saw. */
  get touched(): boolean {
    return this.#touched;
  }

  endTick(seconds: number): void {
    this.#touched = false;
    this.#snapshot = null;
    for (const cell of this.#ticking) cell.endTick(seconds);
    this.#log.endTick();
  }

  #matching(matches: (signal: Signal) => boolean): readonly number[] {
    return this.#signals.flatMap((signal, i) =>
      this.#cells[i] instanceof Cell && matches(signal) ? [i] : [],
    );
  }

  #set(signal: number, value: number, by?: number): void {
    const next = this.#table.single(this.#bands[signal]!.lowest(value));
    if (selects(this.#signals[signal]!)) {
      this.#chosen[signal]!.add(next.list[0]!.value as number);
    }
    this.#change(this.#cells[signal] as Cell, next, by);
  }

  #change(cell: Cell, next: Alternatives, by?: number): void {
    cell.set(next, by);
    this.#touch();
  }

  #reset(target: (signal: Continuous) => number | null): readonly number[] {
    const changed: number[] = [];
    this.#signals.forEach((signal, i) => {
      const cell = this.#cells[i];
      if (!isContinuous(signal)) return;
      const bands = this.#bands[i]!;
      const value = target(signal);
      const others = [initialOf(signal), ...otherInitial(signal)].map((one) => ({
        value: bands.lowest(one),
        doubt: engine,
      }));
      const set = value === null ? [] : [{ value: bands.lowest(value), doubt: 0 }];
      const told = this.#table.of([...set, ...others]);
      const reset = (one: Cell): void => {
        const { list } = one.now;
        const kept = list.map((each) => ({ ...each, doubt: each.doubt | engine }));
        const next = this.#table.of([...(value === null ? list : set), ...kept, ...others]);
        one.reset(next, told, value === null);
      };
      if (cell instanceof Cell) reset(cell);
      else if (cell instanceof KeyedCell) cell.each(reset);
      else return;
      this.#touch();
      changed.push(i);
    });
    return changed;
  }

  #noteKey(down: boolean, channel: number, key: number): void {
    const isHeld = this.held.isHeld(channel, key);
    this.#log.note({ down, channel, key }, () => this.held.all, isHeld);
    this.#touch();
  }

  #touch(): void {
    this.#snapshot = null;
    if (this.#touched) return;
    this.#touched = true;
    this.#onTouch(this);
  }

  #cellOf(signal: Signal, bands: Bands): Cell | HeldSignal | KeyedCell | null {
    const cell = (plain: number, ...others: readonly Alternative[]): Cell =>
      new Cell(
        this.#table,
        this.#table.of([{ value: bands.lowest(plain), doubt: 0 }, ...others]),
        selects(signal) ? this.#slack : 0,
      );
    switch (signal.kind) {
      case 'controller':
        return cell(
          initialOf(signal),
          { value: bands.lowest(0), doubt: startState },
          { value: bands.lowest(powerOnValue(signal.number)), doubt: startState },
          ...otherInitial(signal).map((one) => ({ value: bands.lowest(one), doubt: engine })),
          ...(signal.selects === true ? notSent : []),
        );
      case 'bend':
      case 'pressure':
        return cell(0);
      case 'poly-pressure':
        return signal.of === 'any-key'
          ? cell(0)
          : new KeyedCell(this.#table, this.#table.single(bands.lowest(0)));
      case 'program':
      case 'switch':
        return cell(signal.kind === 'program' ? 0 : (signal.initial ?? none), ...notSent);
      case 'previous-key':
        return cell(none);
      case 'previous-velocity':
        // Whatever was played last before the cue.
        return cell(none, ...bands.between(1, 127).map((value) => ({ value, doubt: startState })));
      case 'held':
        return new HeldSignal(signal, bands, this.#table, this.#log);
      case 'patch':
      case 'channel':
      case 'tempo':
        return null;
    }
  }
}

/** Whether a note of this key is the previous one for later notes. */
const remembersKey = (signal: Signal, key: number): boolean =>
  signal.kind === 'previous-key' &&
  (signal.keys === undefined || signal.keys.some((range) => contains(range, key)));

/** The longest window of the held signals, in seconds; null where none has one. */
const longestWindow = ({ signals }: Program): number | null =>
  signals.reduce<number | null>(
    (longest, signal) =>
      signal.kind === 'held' && signal.within !== undefined
        ? Math.max(longest ?? 0, signal.within)
        : longest,
    null,
  );

type Continuous = Extract<Signal, { kind: 'controller' | 'bend' | 'pressure' | 'poly-pressure' }>;

const isContinuous = (signal: Signal): signal is Continuous =>
  signal.kind === 'controller' ||
  signal.kind === 'bend' ||
  signal.kind === 'pressure' ||
  signal.kind === 'poly-pressure';

const initialOf = (signal: Continuous): number =>
  signal.kind === 'controller' ? (signal.initial ?? powerOnValue(signal.number)) : 0;

/** Where an instrument writes a value between two steps: the other one. */
const otherInitial = (signal: Continuous): readonly number[] =>
  signal.kind === 'controller' && signal.otherInitial !== undefined ? [signal.otherInitial] : [];

const isSwitch = (signal: Signal, key: number): boolean =>
  signal.kind === 'switch' && signal.keys.some((range) => contains(range, key));
