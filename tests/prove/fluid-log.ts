import { rm, writeFile } from 'node:fs/promises';
import { fluidArguments, polyphony, renderLimits, type FluidSettings } from './render.ts';
import { runLimited, type Limits } from './run-limited.ts';

/** Voices started, by `"channel,key,velocity"`; the channel counts from 0. */
export type Starts = ReadonlyMap<string, number>;

/** Bank and program of a preset. */
export interface PresetNumbers {
  readonly bank: number;
  readonly program: number;
}

/** A note of the log with the voices that it started at once. */
export interface LoggedNote {
  /**
   * FluidSynth counts note-ons from 0, also those that find no zone: they are gaps in the log. Under
   * legato a note may keep the number of the one before it.
   */
  readonly number: number;
  /** The preset that its channel had, by the log; null where the log has named none. */
  readonly preset: PresetNumbers | null;
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  readonly voices: number;
}

/** `noteon`, channel, key, velocity, note, …, voices in use, between tabs: a line for each voice. */
const voiceLine = /^fluidsynth: noteon\t(\d+)\t(\d+)\t(\d+)\t(\d+)\t.*\t(\d+)$/;

/** `prog`, channel, bank, program: what a channel is to play from now on. */
const programLine = /^fluidsynth: prog\t(\d+)\t(\d+)\t(\d+)$/;

/** Follows a program line if the bank has no such preset: what it plays instead. */
const substitution =
  /Instrument not found on channel (\d+) .*substituted \[bank=(\d+) prog=(\d+)\]/;

/** Said instead of a voice: no preset at all, or no room for another voice. */
const refusal = /no preset|Failed to allocate|Failed to initialize/;

/**
 * FluidSynth lets a running voice go on under a new key when a legato note falls into the same zone.
 * That starts no voice and writes no line. In the other legato mode it starts every voice anew;
 * resetting the player would undo the choice.
 */
const retriggerArguments = (file: string): readonly string[] => [
  ...['-o', 'player.reset-synth=false', '-f', file],
];

/** What {@link fluidLog} can be asked besides a synthesiser's settings. */
export interface LogSettings extends FluidSettings {
  /** Leaves the legato mode as it is by default: voices may be carried over. */
  readonly carryOver?: boolean;
  readonly limits?: Limits;
}

/**
 * Plays a cue with FluidSynth and reads from its log which voices it starts.
 *
 * @param scratch a file name without extension, free for this run's files.
 * @returns the notes in the order of the log; voices of one note that follow each other are one
 * entry.
 */
export const fluidLog = async (
  bank: string,
  cue: string,
  scratch: string,
  settings: LogSettings = {},
): Promise<readonly LoggedNote[]> => {
  const modes = `${scratch}.modes`;
  const sound = `${scratch}.wav`;
  const channels = Array.from({ length: 16 }, (_, channel) => channel);
  await writeFile(modes, channels.map((at) => `setlegatomode ${String(at)} 0\n`).join(''));
  const notes: (LoggedNote & { voices: number })[] = [];
  const presets = new Map<number, PresetNumbers>();
  const refused: string[] = [];
  let open = false;
  const read = (line: string): void => {
    const [, on, bankNumber, program] = (
      programLine.exec(line) ??
      substitution.exec(line) ??
      []
    ).map(Number);
    if (on !== undefined && bankNumber !== undefined && program !== undefined) {
      presets.set(on, { bank: bankNumber, program });
    }
    const [, channel, key, velocity, number, used = 0] = (voiceLine.exec(line) ?? []).map(Number);
    // With no voice free it would take one from another note, and say nothing.
    if (refusal.test(line) || used >= polyphony - 1) refused.push(line);
    if (
      channel === undefined ||
      key === undefined ||
      velocity === undefined ||
      number === undefined
    ) {
      open = false;
      return;
    }
    const preset = presets.get(channel) ?? null;
    const last = notes.at(-1);
    const same = last?.number === number && last.channel === channel;
    if (open && same && last.key === key && last.velocity === velocity) last.voices += 1;
    else notes.push({ number, preset, channel, key, velocity, voices: 1 });
    open = true;
  };
  const args = [
    ...['-ni', '-v', '-F', sound, '-O', 's16', ...fluidArguments(settings)],
    ...(settings.carryOver === true ? [] : retriggerArguments(modes)),
    ...[bank, cue],
  ];
  try {
    const run = await runLimited('fluidsynth', args, settings.limits ?? renderLimits, read);
    if (run.ended === 'time') throw new Error(`fluidsynth took too long for ${cue}`);
    if (run.ended === 'exit' && run.code !== 0) throw new Error(`fluidsynth failed for ${cue}`);
  } finally {
    await Promise.all([modes, sound].map((file) => rm(file, { force: true })));
  }
  if (refused.length > 0) throw new Error(`voices are missing in the log: ${refused.join('; ')}`);
  return notes;
};

/** Adds up the voices of a log by channel, key and velocity. */
export const startsOf = (notes: readonly LoggedNote[]): Starts => {
  const starts = new Map<string, number>();
  for (const { channel, key, velocity, voices } of notes) {
    const name = `${String(channel)},${String(key)},${String(velocity)}`;
    starts.set(name, (starts.get(name) ?? 0) + voices);
  }
  return starts;
};
