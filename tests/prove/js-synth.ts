/**
 * Plays a cue on a bank with FluidSynth compiled to WebAssembly (the devDependency `js-synthesizer`,
 * which carries FluidSynth 2.4.6): an independent program that knows nothing of keepset.
 *
 * The render is offline and repeats bit for bit: FluidSynth's player counts rendered frames, not
 * time, reverb and chorus are off, and every render gets a synthesiser of its own.
 */
import { createRequire } from 'node:module';
import { parseMidi } from 'midi-file';

export interface RenderOptions {
  /** Seconds to render; left out: to the last event of the cue and three seconds more. */
  readonly seconds?: number;
  /** Frames per second. */
  readonly rate?: 22_050 | 44_100;
}

/** Both channels of a render, of one length. */
export type StereoRender = readonly [left: Float32Array, right: Float32Array];

/** Longest render there is, in seconds: every render has an end, whatever the cue says. */
export const longestRender = 900;

/**
 * Seconds after the last event. FluidSynth 2.4.6 lets go of what is still held at the end of a cue
 * (measured), so this is for the dying away.
 */
const tail = 3;

/**
 * Renders `cue` on `bank` at gain 0.5.
 *
 * @throws {Error} when the synthesiser refuses the bank or the cue, or the length is out of range
 */
export const renderWithJsSynth = async (
  bank: Uint8Array,
  cue: Uint8Array,
  options: RenderOptions = {},
): Promise<StereoRender> => {
  const { rate = 22_050 } = options;
  const seconds = options.seconds ?? Math.min(cueSeconds(cue) + tail, longestRender);
  if (!(seconds > 0 && seconds <= longestRender)) {
    throw new Error(`seconds must be above 0 and at most ${longestRender}: ${seconds}`);
  }
  const { Synthesizer } = await engine;
  const synth = new Synthesizer();
  try {
    synth.init(rate, { initialGain: 0.5, reverbActive: false, chorusActive: false });
    await synth.loadSFont(exactBuffer(bank));
    await synth.addSMFDataToPlayer(exactBuffer(cue));
    await synth.playPlayer();
    return pull(synth, Math.ceil(seconds * rate), rate);
  } finally {
    synth.close();
  }
};

/** The time of the last event of a cue by its tempo changes, in seconds. Reads with `midi-file`. */
export const cueSeconds = (cue: Uint8Array): number => {
  const { header, tracks } = parseMidi(cue);
  const perQuarter = header.ticksPerBeat;
  if (perQuarter === undefined) throw new Error('only cues in ticks per quarter note');
  const changes: [tick: number, microseconds: number][] = [];
  let last = 0;
  for (const track of tracks) {
    let tick = 0;
    for (const event of track) {
      tick += event.deltaTime;
      if (event.type === 'setTempo') changes.push([tick, event.microsecondsPerBeat]);
    }
    last = Math.max(last, tick);
  }
  changes.sort(([a], [b]) => a - b);
  let [seconds, at, tempo] = [0, 0, 500_000];
  for (const [tick, microseconds] of [...changes, [last, 0] as const]) {
    seconds += ((tick - at) * tempo) / perQuarter / 1_000_000;
    [at, tempo] = [tick, microseconds];
  }
  return seconds;
};

/** What is used of the synthesiser's own interface (`dist/lib/ISynthesizer.d.ts` of js-synthesizer). */
interface Synth {
  init(rate: number, settings: Readonly<Record<string, number | boolean>>): void;
  loadSFont(bank: ArrayBuffer): Promise<number>;
  addSMFDataToPlayer(cue: ArrayBuffer): Promise<void>;
  playPlayer(): Promise<void>;
  render(channels: readonly Float32Array[]): void;
  close(): void;
}

interface Engine {
  readonly Synthesizer: {
    new (): Synth;
    initializeWithFluidSynthModule(module: unknown): void;
  };
  waitForReady(): Promise<void>;
  disableLogging(level: number): void;
}

/**
 * One WebAssembly module for all renders. Its log is off but for panics (level 1): each load prints
 * three lines about file functions that are stubs here, and what fails is rejected anyway.
 */
const engine: Promise<Engine> = start();

async function start(): Promise<Engine> {
  const require = createRequire(import.meta.url);
  const fluidSynth: unknown = require('js-synthesizer/libfluidsynth');
  const library = require('js-synthesizer') as Engine;
  library.Synthesizer.initializeWithFluidSynthModule(fluidSynth);
  await library.waitForReady();
  library.disableLogging(1);
  return library;
}

/** Renders in pieces of ten seconds, so that the synthesiser needs no second copy of the whole. */
const pull = (synth: Synth, frames: number, rate: number): StereoRender => {
  const whole: StereoRender = [new Float32Array(frames), new Float32Array(frames)];
  for (let from = 0; from < frames; from += 10 * rate) {
    synth.render(whole.map((channel) => channel.subarray(from, from + 10 * rate)));
  }
  return whole;
};

/** A buffer that holds these bytes and nothing else. */
const exactBuffer = (bytes: Uint8Array): ArrayBuffer => Uint8Array.from(bytes).buffer;
