import { describe, expect, test } from 'vitest';
import { zoneDoubts } from '../../src/keep/reach.ts';
import { tuningMessage } from '../../src/playback/tuning-message.ts';
import { Tuning } from '../../src/playback/tuning.ts';
import { namesOf } from '../../src/terms/doubt.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { cc, instrumentOf, on, start, usageOf } from './hand-made.ts';
import { bytes, keyDump, programName, repeat } from './tuning-bytes.ts';

/**
 * Which keys a note may sound as. What is expected follows from the MIDI Tuning Updated Specification
 * (with CA-020, CA-021), MIDI 1.0 "Registered Parameter Numbers", RP-015, RP-018 and CA-025, and the
 * design, section 6: both keys are reached.
 */
type Step = (tuning: Tuning) => void;

const control =
  (number: number, value: number, channel = 0): Step =>
  (tuning) => {
    tuning.controller(channel, number, value);
  };

const send =
  (hex: string): Step =>
  (tuning) => {
    const message = tuningMessage(bytes(hex));
    if (message === null) throw new Error(`not a tuning message: ${hex}`);
    tuning.take(message);
  };

const select = (parameter: number, channel = 0): readonly Step[] => [
  control(100, parameter, channel),
  control(101, 0, channel),
];
const enter = (parameter: number, value: number, channel = 0): readonly Step[] => [
  ...select(parameter, channel),
  control(6, value, channel),
];
const program = (number: number, channel = 0): readonly Step[] => enter(3, number, channel);
const bank = (number: number, channel = 0): readonly Step[] => enter(4, number, channel);
const coarse = (semitones: number, channel = 0): readonly Step[] =>
  enter(2, 64 + semitones, channel);
const fine = (value: number): readonly Step[] => enter(1, value);
const master =
  (semitones: number): Step =>
  (tuning) => {
    tuning.setMaster(semitones);
  };
const reset: Step = (tuning) => {
  tuning.reset();
};

/** Tunes middle C in a program of bank 0, or of another bank. */
const middleC = (data: string, tuningProgram = '00'): Step =>
  send(`7F 7F 08 02 ${tuningProgram} 01 3C ${data}`);
const middleCOf = (bankAndProgram: string, data: string): Step =>
  send(`7F 7F 08 07 ${bankAndProgram} 01 3C ${data}`);
/** Cents of C as one byte, the other notes in tune. */
const scale = (mask: string, c: string): Step =>
  send(`7F 7F 08 08 ${mask} ${c} ${repeat(11, '40')}`);
/** In two bytes. */
const wideScale = (mask: string, c: string): Step =>
  send(`7E 7F 08 09 ${mask} ${c} ${repeat(11, '40 00')}`);

const after = (steps: readonly Step[]): Tuning => {
  const tuning = new Tuning();
  for (const step of steps) step(tuning);
  return tuning;
};

/** Keys beside 60 on channel 0, ascending. */
const keys = (steps: readonly Step[], channel = 0, key = 60): readonly number[] =>
  [...after(steps).otherKeys(channel, key)].sort((a, b) => a - b);

type Row = readonly [name: string, steps: readonly Step[], expected: readonly number[]];

describe('a pitch between keys', () => {
  // The lower key, and from half way up the upper one: MIDI Tuning, "Frequency data format".
  test.each<Row>([
    ['is the key itself', [middleC('3C 00 00')], []],
    ['is another key', [middleC('3E 00 00')], [62]],
    ['just above it', [middleC('3E 00 01')], [62]],
    ['just below half way', [middleC('3E 3F 7F')], [62]],
    ['half way', [middleC('3E 40 00')], [62, 63]],
    ['just below the next', [middleC('3E 7F 7F')], [62, 63]],
    ['a quarter above the key played', [middleC('3C 20 00')], []],
    ['three quarters above the key played', [middleC('3C 60 00')], [61]],
    ['a quarter below the key played', [middleC('3B 60 00')], [59]],
    ['the top of the range', [middleC('7F 7F 7E')], [127]],
    ['the bottom of the range', [middleC('00 00 00')], [0]],
  ])('%s', (_, steps, expected) => {
    expect(keys(steps)).toEqual(expected);
  });
});

describe('tuning programs', () => {
  const fifth = '43 00 00';
  // MIDI Tuning, "Changing Tuning Programs" and "Single Note Tuning Change"; CA-020.
  test.each<Row>([
    ['program 0 acts where none was selected', [middleC(fifth)], [67]],
    ['another acts where it is selected', [middleC(fifth, '05'), ...program(5)], [67]],
    ['selected before it is stored', [...program(5), middleC(fifth, '05')], [67]],
    ['not selected', [middleC(fifth, '05')], []],
    ['selected on another channel', [middleC(fifth, '05'), ...program(5, 1)], []],
    [
      'left for a program in equal temperament',
      [middleC(fifth, '05'), send(keyDump('7E 7F 08 01 06')), ...program(5), ...program(6)],
      [],
    ],
    [
      'left for one it does not have: ignored, or equal temperament',
      [middleC(fifth, '05'), ...program(5), ...program(6)],
      [67],
    ],
    ['one of another bank', [middleCOf('02 05', fifth), ...program(5)], []],
    ['bank, then program', [middleCOf('02 05', fifth), ...bank(2), ...program(5)], [67]],
    ['program, then bank: at once', [middleCOf('02 05', fifth), ...program(5), ...bank(2)], [67]],
    [
      'program, then bank: or with the next program',
      [middleC('3E 00 00', '05'), middleCOf('02 05', fifth), ...program(5), ...bank(2)],
      [62, 67],
    ],
    [
      'a bulk dump is for bank 0',
      [send(keyDump('7E 7F 08 01 05', { 60: fifth })), ...program(5)],
      [67],
    ],
    [
      'a key-based dump is for its bank',
      [send(keyDump('7E 7F 08 04 02 05', { 60: fifth })), ...bank(2), ...program(5)],
      [67],
    ],
    [
      'a dump replaces all keys',
      [middleC(fifth), send(keyDump('7E 7F 08 01 00', { 61: '40 00 00' }))],
      [],
    ],
    [
      'no change keeps the key as it was',
      [middleC(fifth), send(keyDump('7E 7F 08 01 00', { 60: '7F 7F 7F' }))],
      [67],
    ],
    ['a later change counts', [middleC(fifth), middleC('3E 00 00')], [62]],
    [
      'of two changes in one message the later',
      [send('7F 7F 08 02 00 02 3C 43 00 00 3C 3E 00 00')],
      [62],
    ],
    [
      'a scale dump, two bytes, C 75 cents up (CA-020)',
      [send(`7E 7F 08 06 00 00 ${programName} 70 00 ${repeat(11, '40 00')} 00`)],
      [61],
    ],
    [
      'a scale dump, one byte, C 60 cents up (CA-020)',
      [send(`7E 7F 08 05 00 00 ${programName} 7C ${repeat(11, '40')} 00`)],
      [61],
    ],
    // Data increment and decrement: RP-018, and the examples Bn 64 03 65 00 60 7F / 61 7F.
    ['selected by increment', [middleC(fifth, '01'), ...select(3), control(96, 127)], [67]],
    ['selected by decrement', [middleC(fifth, '04'), ...program(5), control(97, 127)], [67]],
    ['bank by increment', [middleCOf('01 00', fifth), ...select(4), control(96, 0)], [67]],
    [
      'decrement stops at 0',
      [middleC(fifth, '01'), ...select(3), control(97, 0), control(96, 0)],
      [67],
    ],
    ['system reset', [middleC(fifth), ...program(0), reset], []],
    ['at once, and stored later', [...program(5), ...bank(2), middleCOf('02 05', fifth)], [67]],
    ['a reset takes back the selection', [...program(5), reset, middleC(fifth, '05')], []],
  ])('%s', (_, steps, expected) => {
    expect(keys(steps)).toEqual(expected);
  });

  test('program 0 acts on every channel', () => {
    expect(keys([middleC(fifth)], 15)).toEqual([67]);
  });

  test('other keys stay', () => {
    expect(keys([middleC(fifth)], 0, 61)).toEqual([]);
  });
});

describe('scale/octave tuning', () => {
  // CA-021, "Scale/Octave Tuning": on the channels of the mask at once; 1 byte -64 to 63 cents, 2 bytes
  // -100 to 100; each message offsets the tuning program, not what the last one left.
  test.each<Row>([
    ['in tune', [scale('03 7F 7F', '40')], []],
    ['49 cents up', [scale('00 00 01', '71')], []],
    ['50 cents up', [scale('00 00 01', '72')], [61]],
    ['a cent down', [scale('00 00 01', '3F')], [59]],
    ['100 cents down', [wideScale('00 00 01', '00 00')], [59]],
    ['nearly 100 cents up', [wideScale('00 00 01', '7F 7F')], [61]],
    ['on other channels', [scale('03 7F 7E', '7F')], []],
    ['twice does not add up', [scale('00 00 01', '60'), scale('00 00 01', '60')], []],
    ['set back', [scale('00 00 01', '7F'), scale('00 00 01', '40')], []],
    [
      'from where the program has the key, or either alone',
      [middleC('43 00 00'), wideScale('00 00 01', '7F 7F')],
      [61, 67, 68],
    ],
    [
      'from the program down a semitone, or either alone',
      [middleC('43 00 00'), wideScale('00 00 01', '00 00')],
      [59, 66, 67],
    ],
    [
      'where program and scale undo each other: either alone',
      [send(`7E 7F 08 05 00 00 ${programName} 47 ${repeat(11, '40')} 00`), scale('00 00 01', '39')],
      [59],
    ],
    ['system reset', [scale('00 00 01', '7F'), reset], []],
  ])('C %s', (_, steps, expected) => {
    expect(keys(steps)).toEqual(expected);
  });

  test('every C and only C', () => {
    const steps = [scale('00 00 01', '7F')];
    expect([0, 12, 59, 61, 72, 120].map((key) => keys(steps, 0, key))).toEqual([
      [1],
      [13],
      [],
      [],
      [73],
      [121],
    ]);
  });

  test('8 cents down and 58 up are half way', () => {
    const down = send(`7E 7F 08 05 00 00 ${programName} 38 ${repeat(11, '40')} 00`);
    expect(keys([down, scale('00 00 01', '7A')], 0, 0)).toEqual([1]);
  });

  test('channel 16', () => {
    expect(keys([scale('02 00 00', '7F')], 15)).toEqual([61]);
  });
});

describe('with coarse and fine tuning', () => {
  // CA-025: displacements add up. An engine may know of each or not.
  test.each<Row>([
    ['coarse alone', coarse(2), [62]],
    ['master alone', [master(-3)], [57]],
    ['coarse and master', [...coarse(2), master(-3)], [57, 59, 62]],
    ['program and coarse', [middleC('43 00 00'), ...coarse(2)], [62, 67, 69]],
    [
      'program, coarse and master',
      [middleC('43 00 00'), ...coarse(2), master(12)],
      [62, 67, 69, 72, 74, 79, 81],
    ],
    ['half way and coarse', [middleC('43 40 00'), ...coarse(1)], [61, 67, 68, 69]],
    // MIDI 1.0: parameter 2 is in the MSB. RP-018: so is its increment, whatever the value.
    ['coarse, LSB', [...coarse(2), control(38, 127)], [62]],
    ['coarse, increment', [...coarse(2), control(96, 0)], [63]],
    ['coarse, increment by any value', [...select(2), control(96, 127)], [61]],
    ['coarse, decrement', [...select(2), control(97, 64)], [59]],
    ['coarse, increment at the end', [...enter(2, 127), control(96, 0), control(97, 0)], [122]],
    ['an increment with nothing selected', [...coarse(2), ...select(127), control(96, 0)], [62]],
    ['an increment of another parameter', [...coarse(2), ...select(0), control(96, 0)], [62]],
    // Fine tuning chooses no key, unless FluidSynth tunes the channel by a program as well.
    ['fine alone', fine(127), []],
    ['fine with a selected program', [...fine(127), ...program(0)], [61]],
    ['fine tips the program over', [middleC('43 30 00'), ...fine(0x50)], [67, 68]],
    ['fine, LSB', [middleC('43 3F 7F'), ...fine(0x40), control(38, 1)], [67, 68]],
    ['fine, increment of the LSB', [middleC('43 3F 7F'), ...select(1), control(96, 0)], [67, 68]],
    ['fine, increment of no more', [middleC('43 3F 70'), ...select(1), control(96, 0)], [67]],
    [
      'fine, the MSB sets the LSB to 0',
      [middleC('43 3F 7F'), ...fine(0x40), control(38, 127), control(6, 0x40)],
      [67],
    ],
    ['coarse, increment after a reset', [...coarse(2), reset, ...select(2), control(96, 0)], [61]],
    ['fine after a reset', [...fine(127), reset, ...program(0)], []],
    ['fine of a scale', [scale('00 00 01', '60'), ...fine(0x58)], [61]],
  ])('%s', (_, steps, expected) => {
    expect(keys(steps)).toEqual(expected);
  });

  test('reset all controllers deselects and keeps the tuning (RP-015)', () => {
    const tuning = after([...coarse(2), middleC('43 00 00')]);
    tuning.deselect(0);
    for (const number of [6, 38, 96, 97]) tuning.controller(0, number, 0);
    expect([...tuning.otherKeys(0, 60)].sort()).toEqual([62, 67, 69]);
  });
});

describe('neutral', () => {
  test.each<readonly [name: string, steps: readonly Step[], neutral: boolean]>([
    ['at power-on', [], true],
    ['with a program stored', [middleC('43 00 00', '05')], false],
    ['with a scale', [scale('00 00 01', '7F')], false],
    ['with a program selected', program(1), false],
    ['with fine tuning only', fine(0), true],
    ['with coarse tuning', coarse(1), false],
    ['with coarse tuning back at none', [...coarse(1), ...coarse(0)], true],
    ['after a reset', [middleC('43 00 00'), ...program(1), ...coarse(1), master(1), reset], true],
  ])('%s', (_, steps, neutral) => {
    expect(after(steps).isNeutral).toBe(neutral);
  });

  test('an answer is not kept beyond a change', () => {
    const tuning = after([middleC('43 00 00')]);
    const answers = [
      () => undefined,
      middleC('3E 00 00'),
      master(1),
      reset,
      scale('00 00 01', '7F'),
    ].map((step) => {
      step(tuning);
      return [...tuning.otherKeys(0, 60)].sort((a, b) => a - b);
    });
    expect(answers).toEqual([[67], [62], [61, 62, 63], [], [61]]);
  });
});

describe('in a cue', () => {
  const sysex = (tick: number, hex: string): OracleEvent => ({
    tick,
    kind: 'sysex',
    data: [...bytes(hex)],
  });
  /** An instrument that chooses no patch: one zone per key. */
  const reached = (events: readonly OracleEvent[]): Readonly<Record<number, string>> => {
    const zones = Array.from({ length: 128 }, (_, key) => key);
    const instrument = instrumentOf(
      { signals: [], gates: [[]], starts: zones.map((key) => start(key, { keys: [key, key] })) },
      zones.map(() => 1),
    );
    const doubts = zoneDoubts(instrument, [usageOf(instrument, events)]);
    return Object.fromEntries(
      doubts.flatMap((sets, key) =>
        sets.map((set) => [key, namesOf(set).join('+') || 'plain'] as const),
      ),
    );
  };

  test('a note change moves later notes, in doubt, and not those before', () => {
    const change = sysex(10, '7F 7F 08 02 00 01 3C 43 40 00');
    expect(reached([on(0, 60), change])).toEqual({ 60: 'plain' });
    expect(reached([change, on(20, 60), on(30, 62)])).toEqual({
      60: 'plain',
      62: 'plain',
      67: 'engine',
      68: 'engine',
    });
  });

  test('selecting by increment is heard', () => {
    const change = sysex(0, '7F 7F 08 02 01 01 3C 43 00 00');
    const selects = [cc(1, 101, 0), cc(2, 100, 3), cc(3, 96, 0)];
    expect(reached([change, ...selects, on(10, 60)])).toEqual({ 60: 'plain', 67: 'engine' });
  });

  test('so are decrement and the LSB of data entry', () => {
    const change = sysex(0, '7F 7F 08 02 00 01 3C 43 3F 7F');
    const selects = [cc(1, 101, 0), cc(2, 100, 1), cc(3, 97, 0), cc(4, 38, 1), cc(5, 6, 0x40)];
    expect(reached([change, ...selects, cc(6, 38, 1), on(10, 60)])).toMatchObject({ 68: 'engine' });
    expect(reached([change, cc(1, 101, 0), cc(2, 100, 2), cc(3, 97, 0), on(10, 60)])).toMatchObject(
      { 59: 'engine', 66: 'engine' },
    );
  });
});
