import type {
  OracleBank,
  OraclePreset,
  OracleZone,
  OracleZones,
} from '../oracle/soundfont-bank.ts';
import type { LoggedNote } from './fluid-log.ts';

/** What one cue lets sound, with FluidSynth as the judge. */
export interface LoggedZones {
  /** Instrument zones by their bag's number over the whole file (ibag), as keep files count them. */
  readonly zones: ReadonlySet<number>;
  /** Notes that started a voice, and all their voices. */
  readonly notes: number;
  readonly voices: number;
  /** Note-ons that FluidSynth has counted; those without a voice are not among `notes`. */
  readonly counted: number;
}

/** A range of its own, or else that of the global zone (SoundFont 2.04, section 9.4). */
const covers = ({ global }: OracleZones, zone: OracleZone, note: LoggedNote): boolean => {
  const keys = zone.keys ?? global?.keys ?? { low: 0, high: 127 };
  const velocities = zone.velocities ?? global?.velocities ?? { low: 0, high: 127 };
  return (
    note.key >= keys.low &&
    note.key <= keys.high &&
    note.velocity >= velocities.low &&
    note.velocity <= velocities.high
  );
};

/** The zones of a note, one for each voice: a zone that two zones of the preset reach stands twice. */
const zonesOfNote = (bank: OracleBank, preset: OraclePreset, note: LoggedNote): number[] =>
  preset.locals
    .filter((zone) => covers(preset, zone, note))
    .map((zone) => bank.instruments[zone.target ?? -1])
    .filter((instrument) => instrument !== undefined)
    .flatMap((instrument) =>
      instrument.locals.filter((zone) => covers(instrument, zone, note)).map((zone) => zone.index),
    );

const textOf = ({ channel, key, velocity, preset, voices }: LoggedNote): string =>
  JSON.stringify({ channel, key, velocity, preset, voices });

/**
 * The zones that a cue's log stands for.
 *
 * The log names each channel's preset and how many voices a note has started, not which. The zones of
 * the preset that the note falls into are therefore held against the log, note by note.
 *
 * @throws Error with the note where their number is not that of its voices.
 */
export const loggedZones = (bank: OracleBank, log: readonly LoggedNote[]): LoggedZones => {
  const zones = new Set<number>();
  let voices = 0;
  for (const note of log) {
    const preset = bank.presets.find(
      (one) => one.bank === note.preset?.bank && one.program === note.preset.program,
    );
    if (preset === undefined) throw new Error(`a note without a preset: ${textOf(note)}`);
    const found = zonesOfNote(bank, preset, note);
    if (found.length !== note.voices) {
      throw new Error(`${String(found.length)} zones for the voices of ${textOf(note)}`);
    }
    for (const zone of found) zones.add(zone);
    voices += note.voices;
  }
  const counted = 1 + Math.max(-1, ...log.map(({ number }) => number));
  return { zones, notes: log.length, voices, counted };
};

/** Zones of `cue` that none of `others` lets sound, ascending. */
export const onlyIn = (cue: LoggedZones, others: readonly LoggedZones[]): number[] =>
  [...cue.zones]
    .filter((zone) => !others.some(({ zones }) => zones.has(zone)))
    .sort((a, b) => a - b);
