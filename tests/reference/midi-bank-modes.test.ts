import { describe, expect, it, test } from 'vitest';
import {
  coarseTuning,
  controllers,
  drumBanks,
  everyDevice,
  gm2SystemOn,
  gmSystemOff,
  gmSystemOn,
  gsBlockChannels,
  gsChecksum,
  gsExit,
  gsReset,
  gsRhythmParts,
  modeMessages,
  registeredParameters,
  switchOnFrom,
  usualDevice,
  xgSystemOn,
} from '../../reference/midi-bank-modes.ts';
import { hex } from '../midi/hex.ts';

test.each([...modeMessages, ...gsRhythmParts])('$name is one whole message', ({ bytes }) => {
  // MIDI 1.0: F0, then data bytes below 80 hex, then F7.
  expect([bytes.at(0), bytes.at(-1)]).toEqual([0xf0, 0xf7]);
  expect(bytes.slice(1, -1).filter((byte) => byte < 0 || byte > 0x7f)).toEqual([]);
});

it('no two messages are alike', () => {
  const seen = modeMessages.map((message) => message.bytes.join(' '));
  expect(new Set(seen).size).toBe(modeMessages.length);
});

test.each([
  [gmSystemOn, 1],
  [gmSystemOff, 2],
  [gm2SystemOn, 3],
])('the universal messages differ in the second sub-ID alone (table 4)', (message, subId) => {
  expect(message.bytes).toEqual([0xf0, 0x7e, everyDevice, 0x09, subId, 0xf7]);
});

test.each([gsReset, gsExit, ...gsRhythmParts])('$name keeps the checksum rule', ({ bytes }) => {
  const at = bytes.length - gsChecksum.checksumFromEnd;
  const sum = bytes.slice(gsChecksum.from, at).reduce((total, byte) => total + byte, 0);
  const { modulus } = gsChecksum;
  expect(bytes[at]).toBe((modulus - (sum % modulus)) % modulus);
});

test.each([gsReset, gsExit, xgSystemOn, ...gsRhythmParts])('$name has the usual device', (row) => {
  expect(row.bytes[2]).toBe(usualDevice);
});

// Typed from the message formats in the comments of FluidSynth's fluid_synth.c and from the reset
// messages quoted in several public synthesisers, not from the table.
test.each([
  [gsReset, 'F0 41 10 42 12 40 00 7F 00 41 F7'],
  [xgSystemOn, 'F0 43 10 4C 00 00 7E 00 F7'],
])('the message is the one other programs send', (message, sent) => {
  expect([...hex(sent)]).toEqual(message.bytes);
});

it('all GS messages begin alike, up to the first byte of the address', () => {
  for (const { bytes } of [gsExit, ...gsRhythmParts]) {
    expect(bytes.slice(0, 6)).toEqual(gsReset.bytes.slice(0, 6));
    expect(bytes).toHaveLength(gsReset.bytes.length);
  }
  expect(gsExit.bytes.slice(5, 8)).toEqual(gsReset.bytes.slice(5, 8));
});

it('GS blocks reach every channel once, channel 10 through block 0', () => {
  expect(gsBlockChannels).toHaveLength(16);
  expect([...gsBlockChannels].sort((a, b) => a - b)).toEqual(
    Array.from({ length: 16 }, (_, n) => n + 1),
  );
  expect(gsBlockChannels[0]).toBe(10);
  // The two quoted messages: block 9 is called channel 9, block A channel 11.
  const blocks = gsRhythmParts.map(({ bytes }) => (bytes[6] ?? 0) & 0x0f);
  expect(blocks.map((block) => gsBlockChannels[block])).toEqual([9, 11]);
});

it('drum banks are numbers a bank select can carry, and GM2 tells drums from melody', () => {
  for (const bank of Object.values(drumBanks).flat()) {
    expect(bank).toBeGreaterThanOrEqual(0);
    expect(bank).toBeLessThanOrEqual(127);
  }
  expect(drumBanks.gm2).not.toEqual(drumBanks.gm2Melodic);
});

describe('controllers', () => {
  it('ascend, with no name twice', () => {
    const numbers = controllers.map((row) => row.number);
    expect(numbers).toEqual([...new Set(numbers)].sort((a, b) => a - b));
    expect(new Set(controllers.map((row) => row.name)).size).toBe(controllers.length);
  });

  it('an LSB controller is 32 above the one it belongs to', () => {
    for (const { number, name } of controllers) {
      const coarse = /^LSB for Control (\d+) /.exec(name)?.[1];
      expect(number >= 32 && number < 64).toBe(coarse !== undefined);
      if (coarse !== undefined) expect(number).toBe(Number(coarse) + 32);
    }
  });

  it('all eight channel mode messages, 120 to 127, and no other (table 3)', () => {
    const modes = controllers.filter((row) => row.kind === 'mode').map((row) => row.number);
    expect(modes).toEqual([120, 121, 122, 123, 124, 125, 126, 127]);
  });

  it('pedals are switches that are on from the middle', () => {
    const switches = controllers.filter((row) => row.kind === 'switch').map((row) => row.number);
    expect(switches).toEqual([64, 66, 67, 68]);
    expect(switchOnFrom).toBe(128 / 2);
  });
});

describe('registered parameters', () => {
  it('are chosen by the two controllers named for them', () => {
    const name = (number: number) => controllers.find((row) => row.number === number)?.name;
    expect(name(101)).toMatch(/RPN.*MSB/);
    expect(name(100)).toMatch(/RPN.*LSB/);
  });

  it('coarse tuning is 0, 2', () => {
    expect(registeredParameters.find((row) => row.name === 'Channel Coarse Tuning')).toMatchObject({
      msb: 0,
      lsb: 2,
    });
    const pairs = registeredParameters.map((row) => row.msb * 128 + row.lsb);
    expect(pairs).toEqual([0, 1, 2, 0x3fff]);
  });

  test.each(coarseTuning)('data entry $data is $semitones semitones', ({ data, semitones }) => {
    expect(data - 0x40).toBe(semitones);
  });

  it('coarse tuning reaches as far down and up as seven bits go', () => {
    const data = coarseTuning.map((row) => row.data);
    expect([Math.min(...data), Math.max(...data)]).toEqual([0, 127]);
  });
});
