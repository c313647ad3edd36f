import { drumBank, patchValue } from '../instruments/program.ts';
import { doubtSet } from '../terms/doubt.ts';
import type { Alternatives, AlternativesTable } from './alternatives.ts';
import type { Bands } from './bands.ts';
import { BankReader, plainReading, readings } from './bank-reader.ts';
import { Cell } from './cell.ts';
import type { SystemMessage } from './system-message.ts';

const engine = doubtSet('engine');
const startState = doubtSet('start-state');
const slackDoubt = doubtSet('slack');

/** What the readings of one channel are at a place in file order. */
export type PatchNow = readonly Alternatives[];

/** Bank selects and program changes of one tick on one channel, for one reading. */
interface TickLog {
  readonly banks: Set<number>;
  readonly programs: Set<number>;
  bankSelected: boolean;
}

/**
 * The patch that each channel plays. All readings of bank select go along; what only one of the
 * unusual ones says is doubt `engine`. On a tick with bank selects and program changes any of those
 * programs may have taken any of those banks (doubt `order`).
 */
export class PatchSignal {
  readonly #table: AlternativesTable;
  readonly #bands: Bands;
  readonly #readers: readonly BankReader[];
  readonly #cells: readonly (readonly Cell[])[];
  readonly #logs = new Map<number, readonly TickLog[]>();
  readonly #now: (PatchNow | null)[] = Array.from({ length: 16 }, () => null);
  readonly #joined = new Map<string, Alternatives>();
  readonly #chosen: readonly Set<number>[] = Array.from({ length: 16 }, () => new Set());

  /**
   * @param obedience false when no system message comes, so that it does not matter who obeys it
   * @param slack seconds for which it remembers what it was
   */
  constructor(table: AlternativesTable, bands: Bands, obedience: boolean, slack: number) {
    this.#readers = readings
      .filter(({ obeys }) => obedience || obeys === plainReading.obeys)
      .map((reading) => new BankReader(reading));
    this.#table = table;
    this.#bands = bands;
    // Readers power on alike: the few lists there are get made once.
    const starts = new Map<string, Alternatives>();
    this.#cells = Array.from({ length: 16 }, (_, channel) =>
      this.#readers.map((reader, i) => {
        const value = bands.lowest(reader.patch(channel));
        const key = `${value} ${i === 0}`;
        let initial = starts.get(key);
        if (initial === undefined) {
          const open = i === 0 ? [{ value: 'chosen' as const, doubt: startState }] : [];
          starts.set(key, (initial = table.of([{ value, doubt: 0 }, ...open])));
        }
        return new Cell(table, initial, slack);
      }),
    );
  }

  /** Patches the plain reading was set to, by channel. */
  chosen(channel: number): readonly number[] {
    return [...this.#chosen[channel]!].sort((a, b) => a - b);
  }

  /** True when the plain reading has the channel play drums. */
  isDrums(channel: number): boolean {
    return this.#readers[0]!.bank(channel) === drumBank;
  }

  now(channel: number): PatchNow {
    return (this.#now[channel] ??= this.#cells[channel]!.map((cell) => cell.now));
  }

  /** What an event that saw `now` may have seen; the current tick must be over. */
  seen(channel: number, now: PatchNow): Alternatives {
    const cells = this.#cells[channel]!;
    const parts = now.map((alternatives, i) => cells[i]!.seen(alternatives));
    const key = parts.map(({ id }) => id).join(' ');
    let joined = this.#joined.get(key);
    if (joined === undefined) {
      joined = this.#table.join(parts[0]!, parts.slice(1), engine);
      this.#joined.set(key, joined);
    }
    return joined;
  }

  /** Adds to what an event saw all that the patch was between two moments, in seconds. */
  withSlack(channel: number, seen: Alternatives, from: number, to: number): Alternatives {
    const [plainly, ...others] = this.#cells[channel]!.map((cell) => cell.during(from, to));
    return this.#table.join(
      this.#table.join(seen, plainly!, slackDoubt),
      others.flat(),
      slackDoubt | engine,
    );
  }

  bankSelect(channel: number, part: 'msb' | 'lsb', value: number): void {
    const logs = this.#log(channel);
    this.#readers.forEach((reader, i) => {
      if (part === 'msb') reader.bankSelectMsb(channel, value);
      else reader.bankSelectLsb(channel, value);
      logs[i]!.banks.add(reader.bank(channel));
      logs[i]!.bankSelected = true;
    });
  }

  programChange(channel: number, program: number): void {
    const logs = this.#log(channel);
    this.#readers.forEach((reader, i) => {
      reader.programChange(channel, program);
      logs[i]!.programs.add(program);
      this.#set(channel, i);
    });
  }

  /** Returns true when the plain reading reset the whole port. */
  take(message: SystemMessage): boolean {
    let reset = false;
    const logs = Array.from({ length: 16 }, (_, channel) => this.#log(channel));
    this.#readers.forEach((reader, i) => {
      const channels = reader.take(message);
      for (const channel of channels) {
        logs[channel]![i]!.banks.add(reader.bank(channel));
        this.#set(channel, i);
      }
      if (i === 0 && channels.length === 16) reset = true;
    });
    return reset;
  }

  /** Completes what the current tick may have set, before any event of it is looked at. */
  completeTick(): void {
    for (const [channel, logs] of this.#logs) {
      logs.forEach(({ banks, programs, bankSelected }, i) => {
        if (!bankSelected || programs.size === 0) return;
        for (const program of programs) {
          for (const bank of banks) this.#mayHaveSet(channel, i, patchValue(bank, program));
        }
      });
    }
  }

  endTick(seconds: number): void {
    if (this.#logs.size === 0) return;
    for (const channel of this.#logs.keys()) {
      for (const cell of this.#cells[channel]!) cell.endTick(seconds);
      this.#now[channel] = null;
    }
    this.#logs.clear();
  }

  #log(channel: number): readonly TickLog[] {
    let logs = this.#logs.get(channel);
    if (logs === undefined) {
      logs = this.#readers.map((reader) => ({
        banks: new Set([reader.bank(channel)]),
        programs: new Set<number>(),
        bankSelected: false,
      }));
      this.#logs.set(channel, logs);
    }
    return logs;
  }

  #set(channel: number, reader: number): void {
    const value = this.#bands.lowest(this.#readers[reader]!.patch(channel));
    this.#cells[channel]![reader]!.set(this.#table.single(value));
    this.#now[channel] = null;
    if (reader === 0) this.#chosen[channel]!.add(value);
  }

  #mayHaveSet(channel: number, reader: number, patch: number): void {
    const value = this.#bands.lowest(patch);
    this.#cells[channel]![reader]!.mayHaveSet(this.#table.single(value));
    if (reader === 0) this.#chosen[channel]!.add(value);
  }
}
