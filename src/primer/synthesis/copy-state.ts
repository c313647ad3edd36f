/** A note that still sounds: its key is down, or only a pedal holds it. */
export interface Sounding {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  /** Holds of the program for which its pedal has not let go; null: its key is down. */
  readonly pedalled: readonly number[] | null;
}

/** A start of a dropped zone that would be heard if its fades opened: behind a note, until `until`. */
export interface Tail {
  readonly start: number;
  /** 0-15, or 0 where channels share their state. */
  readonly scope: number;
  /** Seconds from the beginning of the primer; Infinity: to its end. */
  readonly until: number;
}

/** All that a copy remembers. Channels of copies that share one state are all 0. */
export class CopyState {
  /** By scope, then by signal. */
  readonly values: Float64Array;
  /** 1 where a message has set it. */
  readonly told: Uint8Array;
  /** Value of each controller by scope. */
  readonly controllers: Uint8Array;
  readonly banks: Uint8Array;
  poly: ReadonlyMap<number, number> = new Map();
  sounding: readonly Sounding[] = [];
  /** Keys that have gone up, and when; only where some signal remembers. */
  lifted: readonly { readonly channel: number; readonly key: number; readonly at: number }[] = [];
  tails: readonly Tail[] = [];
  seconds = 0;

  constructor(values: Float64Array, told: Uint8Array, controllers: Uint8Array, banks: Uint8Array) {
    this.values = values;
    this.told = told;
    this.controllers = controllers;
    this.banks = banks;
  }

  copy(): CopyState {
    const made = new CopyState(
      this.values.slice(),
      this.told.slice(),
      this.controllers.slice(),
      this.banks.slice(),
    );
    made.poly = this.poly;
    made.sounding = this.sounding;
    made.lifted = this.lifted;
    made.tails = this.tails;
    made.seconds = this.seconds;
    return made;
  }
}
