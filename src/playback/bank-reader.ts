import { drumBank, patchValue } from '../instruments/program.ts';
import type { SystemMessage } from './system-message.ts';

/**
 * How a synthesiser reads bank select, and which system messages it obeys.
 *
 * Five ways are in use, named as in FluidSynth's `synth.midi-bank-select`: in *gs* CC0 is the bank; in
 * *gm* the bank stays 0; in *mma* it is CC0 x 128 + CC32 (MIDI 1.0, "Bank Select"); in *xg* CC32 is
 * the bank and CC0 from 120 on makes the channel play drums (as FluidSynth 2.3 has it); *gm2* is alike,
 * but CC0 121 is a melodic bank (General MIDI 2) and so only 120, 126 and 127 mean drums. Whether a reset is obeyed depends
 * on the device id a synthesiser answers to, which differs between versions of one program.
 */
export interface Reading {
  readonly mode: BankMode;
  readonly obeys: 'standard' | 'zero' | 'any' | 'none';
}

type BankMode = 'gs' | 'gm' | 'xg' | 'gm2' | 'mma';

/** CC0 is the bank, resets to device 0x10 or to all (0x7F) are obeyed. */
export const plainReading: Reading = { mode: 'gs', obeys: 'standard' };

/** All readings, the plain one first; the others are doubt `engine`. */
export const readings: readonly Reading[] = [
  plainReading,
  ...(['gs', 'gm', 'xg', 'gm2', 'mma'] as const)
    .flatMap((mode) =>
      (['standard', 'zero', 'any', 'none'] as const).map((obeys) => ({ mode, obeys })),
    )
    .filter(({ mode, obeys }) => mode !== plainReading.mode || obeys !== plainReading.obeys),
];

const drumChannel = 9;
const allDevices = 0x7f;

/** One reading at work on the sixteen channels of a port. */
export class BankReader {
  readonly #obeys: Reading['obeys'];
  #mode: BankMode;
  readonly #drums = new Uint8Array(16);
  readonly #msb = new Uint8Array(16);
  readonly #lsb = new Uint8Array(16);
  readonly #patch = new Float64Array(16);
  readonly #set = new Uint8Array(16);

  constructor(reading: Reading) {
    this.#mode = reading.mode;
    this.#obeys = reading.obeys;
    this.#powerOn();
  }

  /** The patch in force. */
  patch(channel: number): number {
    return this.#patch[channel]!;
  }

  /** False while the patch is what the synthesiser powered on with. */
  isSet(channel: number): boolean {
    return this.#set[channel] === 1;
  }

  /** The bank that a program change would latch now. */
  bank(channel: number): number {
    if (this.#drums[channel] === 1) return drumBank;
    const msb = this.#msb[channel]!;
    const lsb = this.#lsb[channel]!;
    switch (this.#mode) {
      case 'gs':
        return msb;
      case 'gm':
        return 0;
      case 'xg':
      case 'gm2':
        return lsb;
      case 'mma':
        return msb * 128 + lsb;
    }
  }

  bankSelectMsb(channel: number, value: number): void {
    if (this.#mode === 'xg') this.#drums[channel] = Number(value >= 120);
    else if (this.#mode === 'gm2') this.#drums[channel] = Number([120, 126, 127].includes(value));
    else if (this.#mode !== 'gm' && this.#drums[channel] === 0) this.#msb[channel] = value;
  }

  bankSelectLsb(channel: number, value: number): void {
    if (this.#mode === 'gs' || this.#mode === 'gm' || this.#drums[channel] === 1) return;
    this.#lsb[channel] = value;
  }

  programChange(channel: number, program: number): void {
    this.#patch[channel] = patchValue(this.bank(channel), program);
    this.#set[channel] = 1;
  }

  /** Takes a message if this reading obeys it; returns the channels whose patch it set. */
  take(message: SystemMessage): readonly number[] {
    if (message.kind === 'master-coarse-tuning' || !this.#answersTo(message.device)) return [];
    if (message.kind === 'rhythm-part') {
      if (this.#mode !== 'gs') return [];
      this.#drums[message.channel] = Number(message.drums);
      this.programChange(message.channel, 0);
      return [message.channel];
    }
    const modes = { 'gm-on': 'gm', 'gm-off': 'gs', 'gs-reset': 'gs', 'xg-on': 'xg' } as const;
    this.#mode = modes[message.kind];
    this.#powerOn();
    this.#set.fill(1);
    return everyChannel;
  }

  #answersTo(device: number): boolean {
    switch (this.#obeys) {
      case 'standard':
        return device === 0x10 || device === allDevices;
      case 'zero':
        return device === 0x00 || device === allDevices;
      case 'any':
        return true;
      case 'none':
        return false;
    }
  }

  #powerOn(): void {
    this.#msb.fill(0);
    this.#lsb.fill(0);
    this.#drums.fill(0);
    this.#drums[drumChannel] = 1;
    for (const channel of everyChannel) {
      this.#patch[channel] = patchValue(this.bank(channel), 0);
    }
  }
}

const everyChannel: readonly number[] = Array.from({ length: 16 }, (_, channel) => channel);
