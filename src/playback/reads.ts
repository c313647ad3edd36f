import type { Program } from '../instruments/program.ts';
import { controllers } from '../terms/controllers.ts';

/** What the engine follows for every instrument: pedals, tuning, and what ends notes. */
const always: readonly number[] = [
  controllers.dataEntryMsb,
  controllers.dataEntryLsb,
  controllers.dataIncrement,
  controllers.dataDecrement,
  controllers.nrpnLsb,
  controllers.nrpnMsb,
  controllers.rpnLsb,
  controllers.rpnMsb,
  controllers.allSoundOff,
  controllers.resetAllControllers,
  controllers.allNotesOff,
  controllers.omniOff,
  controllers.omniOn,
  controllers.monoOn,
  controllers.polyOn,
];

const bankSelect: readonly number[] = [controllers.bankSelectMsb, controllers.bankSelectLsb];

/** By kind of message (the high four bits of its status) x 128 + first data byte: 1 where it is read. */
export type Reads = Uint8Array;

const known = new WeakMap<Program, Reads>();

/** Which channel messages can change what a program plays; all others are dropped before playing. */
export const readsOf = (program: Program): Reads => {
  let found = known.get(program);
  if (found === undefined) known.set(program, (found = tableOf(reader(program))));
  return found;
};

const tableOf = (reads: (status: number, data1: number) => boolean): Reads => {
  const table = new Uint8Array(16 * 128);
  for (let kind = 8; kind < 15; kind++) {
    for (let data = 0; data < 128; data++)
      table[kind * 128 + data] = Number(reads(kind << 4, data));
  }
  return table;
};

/** The answer takes a status byte with its channel left out, and the first data byte. */
const reader = (program: Program): ((status: number, data1: number) => boolean) => {
  const kinds = new Set(program.signals.map(({ kind }) => kind));
  const numbers = new Set(always);
  const add = (list: readonly number[]): void => {
    for (const number of list) numbers.add(number);
  };
  for (const signal of program.signals) {
    if (signal.kind === 'controller') numbers.add(signal.number);
  }
  if (kinds.has('patch')) add(bankSelect);
  if (program.retriggers) numbers.add(controllers.legato);
  if (program.starts.some(({ event, fades }) => event !== 'note-on' || fades.length > 0)) {
    const pedals = program.holds.flatMap(({ pedals: all }) =>
      all.flatMap(({ sustain, sostenuto }) => [sustain, sostenuto]),
    );
    add(pedals.flatMap((pedal) => pedal?.controller ?? []));
  }
  return (status, data1) => {
    switch (status) {
      case 0xa0:
        return kinds.has('poly-pressure');
      case 0xb0:
        return numbers.has(data1);
      case 0xc0:
        return kinds.has('patch') || kinds.has('program');
      case 0xd0:
        return kinds.has('pressure');
      case 0xe0:
        return kinds.has('bend');
      default:
        return false;
    }
  };
};
