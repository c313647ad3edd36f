/** The demo as FluidSynth (in WebAssembly, through js-synthesizer) plays it. */
import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import {
  cueSeconds,
  longestRender,
  renderWithJsSynth,
  type StereoRender,
} from '../prove/js-synth.ts';
import { naiveReach } from './naive-reach.ts';
import { amount, readBank, type RawOwner } from './read-bank.ts';

const files = demoFiles();
const file = files.find(({ path }) => path.endsWith('.sf2'))!.bytes;
const bank = readBank(file);
const cues = files.filter(({ path }) => path.startsWith('cues/'));
const rate = 22_050;

const peak = (channel: Float32Array): number =>
  channel.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

const same = (a: StereoRender, b: StereoRender): boolean =>
  [0, 1].every((side) => Buffer.compare(bytesOf(a[side]!), bytesOf(b[side]!)) === 0);

const bytesOf = (channel: Float32Array): Buffer =>
  Buffer.from(channel.buffer, channel.byteOffset, channel.byteLength);

/** A copy of the bank with noise in place of some samples; the points after them stay zero. */
const poisoned = (samples: Iterable<number>): Uint8Array => {
  const copy = Uint8Array.from(file);
  for (const index of samples) {
    const { start, end } = bank.samples[index]!;
    for (let at = bank.pointsAt + 2 * start; at < bank.pointsAt + 2 * end; at++) {
      copy[at] = (Math.imul(at + 7 * index, 0x9e3779b1) >>> 13) & 0xff;
    }
  }
  return copy;
};

describe.each(cues)('$path', ({ bytes }) => {
  test('lasts as long as a cue and sounds on both sides, without clipping', async () => {
    const seconds = cueSeconds(bytes);
    expect(seconds).toBeGreaterThan(25);
    expect(seconds).toBeLessThan(75);
    const [left, right] = await renderWithJsSynth(file, bytes);
    expect(left.length).toBe(Math.ceil((seconds + 3) * rate));
    for (const channel of [left, right]) {
      expect(peak(channel)).toBeGreaterThan(0.1);
      expect(peak(channel)).toBeLessThan(1);
    }
    const tenth = Math.floor((seconds * rate) / 10);
    for (let part = 1; part < 9; part++) {
      expect(peak(left.subarray(part * tenth, (part + 1) * tenth)), `part ${part}`).toBeGreaterThan(
        0.01,
      );
    }
  });

  test('is the same render when all it does not reach is noise, another for what it reaches', async () => {
    const { samples } = naiveReach(bank, bytes);
    const clean = await renderWithJsSynth(file, bytes);
    const unreached = [...bank.samples.keys()].filter((index) => !samples.has(index));
    expect(same(await renderWithJsSynth(poisoned(unreached), bytes), clean)).toBe(true);
    const kept = [...samples];
    for (const sample of [kept[0]!, kept[kept.length >> 1]!, kept.at(-1)!]) {
      const render = await renderWithJsSynth(poisoned([sample]), bytes);
      expect(same(render, clean), bank.samples[sample]!.name).toBe(false);
    }
  });
});

test('two renders are the same bit for bit, whatever was rendered between them', async () => {
  const cue = cues[1]!.bytes;
  const first = await renderWithJsSynth(file, cue);
  await renderWithJsSynth(file, cues[6]!.bytes, { seconds: 2 });
  expect(same(await renderWithJsSynth(file, cue), first)).toBe(true);
  const other = await renderWithJsSynth(file, cues[2]!.bytes);
  expect(same(other, first)).toBe(false);
});

test('options: the length in seconds and the rate; no endless render, and errors are told', async () => {
  const cue = cues[3]!.bytes;
  const [left, right] = await renderWithJsSynth(file, cue, { seconds: 2.5, rate: 44_100 });
  expect([left.length, right.length]).toEqual([110_250, 110_250]);
  for (const seconds of [0, -1, Number.NaN, longestRender + 1]) {
    await expect(renderWithJsSynth(file, cue, { seconds })).rejects.toThrow(/seconds/);
  }
  await expect(renderWithJsSynth(file.subarray(0, 60), cue, { seconds: 1 })).rejects.toThrow();
});

test('a note held to the end is let go there, and its dying away is in the render', async () => {
  const held = { channel: 0, program: 52, tick: 0, key: 60, velocity: 90 };
  // 960 ticks a second. The choir takes 0.6 s to die away (its release in the bank).
  const [left] = await renderWithJsSynth(file, noteCue([held], 59.9 * 960));
  expect(left.length).toBe(Math.ceil(62.9 * rate));
  expect(peak(left.subarray(60 * rate, 60.3 * rate))).toBeGreaterThan(1e-4);
  expect(peak(left.subarray(61 * rate))).toBe(0);
});

/** One zone's keys by one velocity from its softest end: what a single note must make sound. */
const notesOf = (preset: RawOwner): readonly { key: number; velocity: number }[] => {
  const notes = new Map<string, { key: number; velocity: number }>();
  for (const outer of preset.zones) {
    const [keys, instrument] = [amount(outer, 43) ?? 0x7f00, amount(outer, 41)];
    if (instrument === undefined) continue;
    for (const zone of bank.instruments[instrument]!.zones) {
      const [own, velocities] = [amount(zone, 43), amount(zone, 44)];
      if (own === undefined || velocities === undefined) continue;
      const hi = Math.min(own >> 8, keys >> 8);
      for (let key = Math.max(own & 0xff, keys & 0xff); key <= hi; key++) {
        const velocity = Math.max(1, velocities & 0xff);
        notes.set(`${key} ${velocity}`, { key, velocity });
      }
    }
  }
  return [...notes.values()];
};

test.each(bank.presets)(
  '$name sounds on each of its keys at the softest of each layer',
  async (preset) => {
    const notes = notesOf(preset);
    expect(notes.length).toBeGreaterThan(20);
    const channel = preset.bank === 128 ? 9 : 0;
    const step = 240;
    const cue = noteCue(
      notes.map((note, index) => ({
        ...note,
        channel,
        program: preset.program,
        bank: preset.bank,
        tick: index * step,
      })),
      notes.length * step,
    );
    const [left, right] = await renderWithJsSynth(file, cue);
    // 240 ticks at the default 120 a minute are a quarter of a second.
    notes.forEach(({ key, velocity }, index) => {
      const [from, to] = [index * 0.25 * rate, (index + 1) * 0.25 * rate].map(Math.round);
      const loudest = Math.max(peak(left.subarray(from, to)), peak(right.subarray(from, to)));
      expect(loudest, `key ${key} velocity ${velocity}`).toBeGreaterThan(
        velocity === 1 ? 1e-6 : 1e-3,
      );
    });
  },
);

interface PlainNote {
  readonly channel: number;
  readonly program: number;
  readonly bank?: number;
  readonly tick: number;
  readonly key: number;
  readonly velocity: number;
}

/** A cue of single notes that are never released; each silences the one before it (controller 120). */
const noteCue = (notes: readonly PlainNote[], end: number): Uint8Array => {
  let before = 0;
  const track = notes.flatMap(({ channel, program, bank: number, tick, key, velocity }) => {
    const deltaTime = tick - before;
    before = tick;
    return [
      { deltaTime, type: 'controller', channel, controllerType: 120, value: 0 },
      { deltaTime: 0, type: 'controller', channel, controllerType: 0, value: (number ?? 0) % 128 },
      { deltaTime: 0, type: 'programChange', channel, programNumber: program },
      { deltaTime: 0, type: 'noteOn', channel, noteNumber: key, velocity },
    ] satisfies MidiEvent[];
  });
  const header = { format: 1, numTracks: 1, ticksPerBeat: 480 } as const;
  const closing: MidiEvent = { deltaTime: end - before, type: 'endOfTrack' };
  return Uint8Array.from(writeMidi({ header, tracks: [[...track, closing]] }));
};
