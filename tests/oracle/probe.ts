/**
 * Short hands for hand-worked tables: events in one line, banks that answer with the name of the
 * preset that was heard, and doubt sets in words.
 */
import { doubtBits } from './doubts.ts';
import { operators, range, writeBank, type Generator, type ZonePlan } from './soundfont-bytes.ts';
import type { OracleEvent } from './soundfont-events.ts';
import {
  play,
  readBank,
  type ChosenPatches,
  type OracleBank,
  type OracleResult,
} from './soundfont-player.ts';

export const on = (tick: number, channel = 0, key = 60, velocity = 100): OracleEvent => ({
  ...{ tick, kind: 'note-on', channel, key, velocity },
});

export const off = (tick: number, channel = 0, key = 60): OracleEvent => ({
  ...{ tick, kind: 'note-off', channel, key },
});

export const control = (tick: number, number: number, value: number, channel = 0): OracleEvent => ({
  ...{ tick, kind: 'controller', channel, number, value },
});

export const program = (tick: number, value: number, channel = 0): OracleEvent => ({
  ...{ tick, kind: 'program', channel, program: value },
});

export const sysex = (tick: number, data: readonly number[]): OracleEvent => ({
  ...{ tick, kind: 'sysex', data },
});

export const keys = (low: number, high: number): Generator => [
  operators.keyRange,
  range(low, high),
];
export const velocities = (low: number, high: number): Generator => [
  operators.velocityRange,
  range(low, high),
];
export const instrument = (index: number): Generator => [operators.instrument, index];
export const sample = (index: number): Generator => [operators.sampleId, index];
export const zone = (...generators: Generator[]): ZonePlan => ({ generators });

/** A bank of presets named `bank:program`, each with one instrument of one zone over all keys. */
export function presetProbe(names: readonly string[]): OracleBank {
  return readBank(
    writeBank({
      presets: names.map((name, index) => {
        const [bank = 0, number = 0] = name.split(':').map(Number);
        return { name, bank, program: number, zones: [zone(instrument(index))] };
      }),
      instruments: names.map((name) => ({ name, zones: [zone(sample(0))] })),
      samples: [{ name: 'noise' }],
    }),
  );
}

/** One preset, 0:0, with one preset zone, over an instrument with the zones given. */
export function zoneProbe(
  instrumentZones: readonly ZonePlan[],
  presetZones: readonly ZonePlan[] = [zone(instrument(0))],
): OracleBank {
  return readBank(
    writeBank({
      presets: [{ name: 'probe', bank: 0, program: 0, zones: presetZones }],
      instruments: [{ name: 'probe', zones: instrumentZones }],
      samples: [{ name: 'noise' }],
    }),
  );
}

/** The presets of `presetProbe` that were heard; a doubt set is `plain`, or `order+engine` and so on. */
export function heard(
  names: readonly string[],
  events: readonly OracleEvent[],
  chosen?: ChosenPatches,
): Record<string, string[]> {
  const result = play(presetProbe(names), events, chosen);
  const entries = [...result.zones].map(
    ([ibag, sets]) => [names[ibag] ?? String(ibag), inWords(sets)] as const,
  );
  return Object.fromEntries(entries);
}

/** Instrument zones by ibag number, with their doubt sets. */
export function reached(result: OracleResult): Record<string, string[]> {
  return Object.fromEntries([...result.zones].map(([ibag, sets]) => [ibag, inWords(sets)]));
}

export function inWords(sets: readonly number[]): string[] {
  return sets.map((set) => {
    const names = Object.entries(doubtBits).filter(([, bit]) => (set & bit) !== 0);
    return names.length === 0 ? 'plain' : names.map(([name]) => name).join('+');
  });
}
