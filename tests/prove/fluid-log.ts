import { rm, writeFile } from 'node:fs/promises';
import { fluidArguments, polyphony, renderLimits, type FluidSettings } from './render.ts';
import { runLimited, type Limits } from './run-limited.ts';

/** Voices started, by `"channel,key,velocity"`; the channel counts from 0. */
export type Starts = ReadonlyMap<string, number>;

/** A note of the log with the voices that it started at once. */
export interface LoggedNote {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  readonly voices: number;
}

/** `noteon`, channel, key, velocity, …, voices in use, between tabs: one line for each voice. */
const voiceLine = /^fluidsynth: noteon\t(\d+)\t(\d+)\t(\d+)\t.*\t(\d+)$/;

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
  const notes: { channel: number; key: number; velocity: number; voices: number }[] = [];
  const refused: string[] = [];
  let open = false;
  const read = (line: string): void => {
    const [, channel, key, velocity, used = 0] = (voiceLine.exec(line) ?? []).map(Number);
    // With no voice free it would take one from another note, and say nothing.
    if (refusal.test(line) || used >= polyphony - 1) refused.push(line);
    if (channel === undefined || key === undefined || velocity === undefined) {
      open = false;
      return;
    }
    const last = notes.at(-1);
    const again =
      last?.channel === channel && last.key === key && last.velocity === velocity && open;
    if (again) last.voices += 1;
    else notes.push({ channel, key, velocity, voices: 1 });
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
