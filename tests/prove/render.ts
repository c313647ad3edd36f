import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { rm, stat, writeFile } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { runLimited, type Limits, type RunResult } from './run-limited.ts';

/** A rendered file: compared as a whole, length included. */
export interface Render {
  readonly sha256: string;
  readonly bytes: number;
  /** Whether it ended by itself, or was cut at the limit of size. */
  readonly ended: 'exit' | 'size';
}

/** How FluidSynth reads bank selects and system exclusive messages. */
export interface FluidSettings {
  /** `synth.device-id`: 0 up to version 2.3, 16 since 2.4; the plain reading is 16. */
  readonly deviceId?: number;
  /** `synth.midi-bank-select`; the plain reading is gs. */
  readonly bankSelect?: 'gm' | 'gs' | 'xg' | 'mma';
  /** `-g`: 0.5 unless a quiet sample has to be lifted above the last bit. */
  readonly gain?: number;
}

/** 22 050 Hz instead of the usual 44 100: half the time, and as good for telling files apart. */
const rate = '22050';

/**
 * Voices at once. Stealing a voice would hide a poisoned sample, so the limit lies far above what
 * the cues need; the same for both programs, as TiMidity++ takes no more.
 */
export const polyphony = 1024;

/** Fifteen minutes of 16-bit stereo; the longest real cue takes under five. */
export const renderLimits: Limits = { seconds: 240, fileBytes: 15 * 60 * 22_050 * 4 };

/** The settings that a FluidSynth run shares with the reading of its log. */
export const fluidArguments = (settings: FluidSettings): readonly string[] => [
  ...['-r', rate, '-R', '0', '-C', '0', '-g', String(settings.gain ?? 0.5)],
  ...['-o', 'synth.cpu-cores=1', '-o', `synth.polyphony=${String(polyphony)}`],
  ...['-o', `synth.device-id=${String(settings.deviceId ?? 16)}`],
  ...['-o', `synth.midi-bank-select=${settings.bankSelect ?? 'gs'}`],
];

const fileSha256 = async (file: string): Promise<string> => {
  const hash = createHash('sha256');
  await pipeline(createReadStream(file), hash);
  return hash.digest('hex');
};

const finished = async (program: string, run: RunResult, out: string): Promise<Render> => {
  if (run.ended === 'time') throw new Error(`${program} took too long for ${out}`);
  if (run.ended === 'exit' && run.code !== 0) {
    throw new Error(`${program} failed (${String(run.code)}): ${run.stdout}${run.stderr}`);
  }
  const { size } = await stat(out);
  // 44 bytes are the header of an empty wave file: that would compare equal and prove nothing.
  if (size <= 44) throw new Error(`${program} wrote no sound to ${out}: ${run.stderr}`);
  return { sha256: await fileSha256(out), bytes: size, ended: run.ended };
};

/** Renders a cue with FluidSynth to the wave file `out`; one core, no reverb and no chorus. */
export const renderFluidSynth = async (
  bank: string,
  cue: string,
  out: string,
  settings: FluidSettings = {},
  limits: Limits = renderLimits,
): Promise<Render> => {
  const args = ['-ni', '-q', '-F', out, '-O', 's16', ...fluidArguments(settings), bank, cue];
  return finished('fluidsynth', await runLimited('fluidsynth', args, limits), out);
};

/**
 * Renders a cue with TiMidity++, a synthesiser of other origin, to the wave file `out`. Its own list of
 * instruments has to be taken back before (`timidity-home.ts`). Fails where the program says that it cut or lost notes.
 */
export const renderTimidity = async (
  bank: string,
  cue: string,
  out: string,
  limits: Limits = renderLimits,
): Promise<Render> => {
  const config = `${out}.cfg`;
  await writeFile(config, `dir /\nsoundfont "${bank}"\n`);
  const args = [
    ...['-c', config, '-Ow', '-s', rate, '-p', String(polyphony), '-o', out],
    ...['-EFreverb=0', '-EFchorus=0', '-id', cue],
  ];
  const run = await runLimited('timidity', args, limits);
  await rm(config);
  for (const [, kind, count] of run.stdout.matchAll(/Notes (cut|lost totally): (\d+)/g)) {
    if (count !== '0') throw new Error(`timidity: notes ${String(kind)}: ${String(count)}`);
  }
  return finished('timidity', run, out);
};

const versionLine = async (program: string, option: string): Promise<string | null> => {
  try {
    const limits: Limits = { seconds: 20, fileBytes: 1_000_000 };
    const { stdout, stderr } = await runLimited(program, [option], limits);
    return /^.*version.*$/m.exec(`${stdout}${stderr}`)?.[0] ?? null;
  } catch {
    return null;
  }
};

/** The line in which a program names its version, or null where there is no such program. */
export const fluidSynthVersion = (): Promise<string | null> =>
  versionLine('fluidsynth', '--version');
export const timidityVersion = (): Promise<string | null> => versionLine('timidity', '-v');
