import { parseMidi, type MidiEvent } from 'midi-file';
import { amount, takes, type RawBank } from './read-bank.ts';

/**
 * What a cue reaches by the letter, worked out the slow way: events merged by tick in file order,
 * controller 0 is the bank, channel 10 is bank 128, and a missing preset falls back to the same
 * program of bank 0 or to program 0 of bank 128 (FluidSynth 2.4.6, `synth.midi-bank-select` gs).
 */
export interface Reach {
  /** Bag index of every instrument zone that starts. */
  readonly zones: ReadonlySet<number>;
  readonly samples: ReadonlySet<number>;
  /** `bank:program` of every preset played. */
  readonly presets: ReadonlySet<string>;
  readonly notes: number;
  /** Notes that no zone takes. */
  readonly silent: number;
}

export const naiveReach = (bank: RawBank, cue: Uint8Array): Reach => {
  const zones = new Set<number>();
  const samples = new Set<number>();
  const presets = new Set<string>();
  let [notes, silent] = [0, 0];
  const banks = Array.from({ length: 16 }, (_, channel): number => (channel === 9 ? 128 : 0));
  const asked = [...banks];
  const programs = banks.map((): number => 0);
  for (const event of merged(cue)) {
    if (event.type === 'controller' && event.controllerType === 0 && event.channel !== 9) {
      asked[event.channel] = event.value;
    } else if (event.type === 'programChange') {
      programs[event.channel] = event.programNumber;
      banks[event.channel] = asked[event.channel]!;
    } else if (event.type === 'noteOn' && event.velocity > 0) {
      const [wanted, program] = [banks[event.channel]!, programs[event.channel]!];
      const fallback = wanted === 128 ? [128, 0] : [0, program];
      const preset =
        bank.presets.find((one) => one.bank === wanted && one.program === program) ??
        bank.presets.find((one) => one.bank === fallback[0] && one.program === fallback[1])!;
      presets.add(`${preset.bank}:${preset.program}`);
      let started = 0;
      for (const outer of preset.zones) {
        const instrument = amount(outer, 41);
        if (instrument === undefined || !takes(outer, event.noteNumber, event.velocity)) continue;
        for (const zone of bank.instruments[instrument]!.zones) {
          const sample = amount(zone, 53);
          if (sample === undefined || !takes(zone, event.noteNumber, event.velocity)) continue;
          zones.add(zone.bag);
          samples.add(sample);
          started++;
        }
      }
      notes++;
      if (started === 0) silent++;
    }
  }
  return { zones, samples, presets, notes, silent };
};

const merged = (cue: Uint8Array): readonly MidiEvent[] =>
  parseMidi(cue)
    .tracks.flatMap((track) => {
      let tick = 0;
      return track.map((event) => ({ tick: (tick += event.deltaTime), event }));
    })
    .sort((a, b) => a.tick - b.tick)
    .map(({ event }) => event);
