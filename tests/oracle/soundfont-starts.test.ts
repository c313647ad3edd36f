/** Hand-worked tables for what starts, and by which keys: held keys that return, coarse tuning. */
import { describe, expect, test } from 'vitest';
import {
  control,
  heard,
  instrument,
  keys,
  off,
  on,
  program,
  reached,
  sample,
  sysex,
  zone,
  zoneProbe,
} from './probe.ts';
import { writeBank } from './soundfont-bytes.ts';
import type { OracleEvent } from './soundfont-events.ts';
import { play, readBank } from './soundfont-player.ts';
import { gmOn, gsReset, masterCoarseTuning } from './sysex.ts';

describe('held keys that sound again', () => {
  const legato = control(0, 68, 127);
  const mono = control(0, 126, 1);
  const low = on(1, 0, 60, 80);
  const high = on(2, 0, 64, 100);
  const once = { '0,60,80': 1, '0,64,100': 1 };
  const again = { '0,60,80': 2, '0,64,100': 1 };
  test.each<[string, OracleEvent[], Record<string, number>]>([
    ['legato pedal', [legato, low, high, off(3, 0, 64)], again],
    ['mono mode', [mono, low, high, off(3, 0, 64)], again],
    ['neither', [low, high, off(3, 0, 64)], once],
    ['pedal at 64', [control(0, 68, 64), low, high, off(3, 0, 64)], again],
    ['pedal at 63', [control(0, 68, 63), low, high, off(3, 0, 64)], once],
    ['pedal up again', [legato, low, high, control(2, 68, 0), off(3, 0, 64)], once],
    [
      'controller 121 lifts the pedal',
      [legato, low, high, control(2, 121, 0), off(3, 0, 64)],
      once,
    ],
    [
      'controller 121 releases no key',
      [low, high, control(2, 121, 0), control(2, 68, 127), off(3, 0, 64)],
      again,
    ],
    [
      'controller 121 leaves mono mode',
      [mono, low, high, control(2, 121, 0), off(3, 0, 64)],
      again,
    ],
    ['pedal after the notes', [low, high, control(2, 68, 127), off(3, 0, 64)], again],
    ['a note-on of velocity 0', [legato, low, high, on(3, 0, 64, 0)], again],
    ['the earlier key goes first', [legato, low, high, off(3, 0, 60)], once],
    ['both go', [legato, low, high, off(3, 0, 60), off(4, 0, 64)], once],
    ['a key that is not down', [legato, low, high, off(3, 0, 70)], once],
    ['the same key on another channel', [legato, low, high, off(3, 1, 64)], once],
    ['pedal of another channel', [control(0, 68, 127, 1), low, high, off(3, 0, 64)], once],
    ['mono mode ends', [mono, control(0, 127, 0), low, high, off(3, 0, 64)], once],
    [
      'mono mode does not end by poly of omni',
      [mono, control(0, 125, 0), low, high, off(3, 0, 64)],
      again,
    ],
    ['a reset lifts the pedal', [legato, sysex(0, gsReset(0x10)), low, high, off(3, 0, 64)], once],
    [
      'a reset releases',
      [low, high, sysex(2, gsReset(0x10)), control(2, 68, 127), off(3, 0, 64)],
      once,
    ],
    ['a reset for others', [legato, low, high, sysex(2, gsReset(0x00)), off(3, 0, 64)], again],
    [
      'three keys: the last of those still down, then the next',
      [legato, low, high, on(3, 0, 67, 90), off(4, 0, 67), off(5, 0, 64)],
      { '0,60,80': 2, '0,64,100': 2, '0,67,90': 1 },
    ],
    [
      'a repeated key moves to the top',
      [legato, low, high, on(3, 0, 60, 90), off(4, 0, 60)],
      { '0,60,80': 1, '0,60,90': 1, '0,64,100': 2 },
    ],
    [
      'a repeated key comes back with its new velocity',
      [legato, low, on(2, 0, 60, 90), on(3, 0, 67, 100), off(4, 0, 67)],
      { '0,60,80': 1, '0,60,90': 2, '0,67,100': 1 },
    ],
    ...[120, 123, 124, 125, 126, 127].map(
      (number): [string, OracleEvent[], Record<string, number>] => [
        `controller ${number} releases`,
        [legato, low, high, control(2, number, 0), off(3, 0, 64)],
        once,
      ],
    ),
  ])('%s', (_, events, expected) => {
    const result = play(zoneProbe([zone(sample(0))]), events);
    expect(Object.fromEntries(result.plainStarts)).toEqual(expected);
  });

  test('the patch is that of the moment', () => {
    const events = [program(0, 0), legato, low, high, program(3, 5), off(4, 0, 64)];
    expect(heard(['0:0', '0:5'], events)).toEqual({ '0:0': ['plain'], '0:5': ['plain'] });
  });

  test('the order within the tick of the note-off is as open as for a note-on', () => {
    const events = [program(-1, 1), legato, low, high, off(9, 0, 64), program(9, 5)];
    expect(heard(['0:1', '0:5'], events)).toEqual({ '0:1': ['plain'], '0:5': ['order'] });
  });
});

describe('coarse tuning', () => {
  /** The keys whose zones are reached when key 60 is played; each zone covers one key. */
  function keysReached(events: OracleEvent[], key = 60, channel = 0): Record<string, string[]> {
    const single = Array.from({ length: 128 }, (_, number) =>
      zone(keys(number, number), sample(0)),
    );
    const bank = readBank(
      writeBank({
        presets: [0, 128].map((number) => ({
          ...{ name: 'probe', bank: number, program: 0, zones: [zone(instrument(0))] },
        })),
        instruments: [{ name: 'probe', zones: single }],
        samples: [{ name: 'noise' }],
      }),
    );
    const result = play(bank, [...events, on(9, channel, key)]);
    expect([...result.plainStarts]).toEqual([[`${channel},${key},100`, 1]]);
    return reached(result);
  }
  const tune = (semitones: number, channel = 0) => [
    control(0, 101, 0, channel),
    control(1, 100, 2, channel),
    control(2, 6, 64 + semitones, channel),
  ];
  const master = (semitones: number) => sysex(3, masterCoarseTuning(0x05, semitones));

  test.each<[string, OracleEvent[], Record<string, string[]>]>([
    ['two semitones up', tune(2), { 60: ['plain'], 62: ['engine'] }],
    ['an octave down', tune(-12), { 48: ['engine'], 60: ['plain'] }],
    ['none', tune(0), { 60: ['plain'] }],
    ['back to none', [...tune(2), control(3, 6, 64)], { 60: ['plain'] }],
    ['another channel', tune(2, 1), { 60: ['plain'] }],
    [
      'another parameter',
      [control(0, 101, 0), control(1, 100, 1), control(2, 6, 66)],
      { 60: ['plain'] },
    ],
    [
      'another group',
      [control(0, 101, 1), control(1, 100, 2), control(2, 6, 66)],
      { 60: ['plain'] },
    ],
    ['nothing selected', [control(2, 6, 66)], { 60: ['plain'] }],
    ['half selected', [control(1, 100, 2), control(2, 6, 66)], { 60: ['plain'] }],
    ['deselected by 98', [...tune(0), control(3, 98, 2), control(4, 6, 66)], { 60: ['plain'] }],
    ['deselected by 99', [...tune(0), control(3, 99, 0), control(4, 6, 66)], { 60: ['plain'] }],
    [
      'deselected by the null parameter',
      [...tune(0), control(3, 101, 127), control(4, 6, 66)],
      { 60: ['plain'] },
    ],
    // RP-015 (from memory): reset all controllers deselects the parameter, and keeps its value.
    ['deselected by 121', [...tune(0), control(3, 121, 0), control(4, 6, 66)], { 60: ['plain'] }],
    ['kept by 121', [...tune(2), control(3, 121, 0)], { 60: ['plain'], 62: ['engine'] }],
    ['by the master', [master(3)], { 60: ['plain'], 63: ['engine'] }],
    [
      'by both',
      [...tune(2), master(3)],
      { 60: ['plain'], 62: ['engine'], 63: ['engine'], 65: ['engine'] },
    ],
    [
      'master with a fine byte',
      [sysex(0, [0x7f, 0x7f, 4, 4, 0x33, 66])],
      { 60: ['plain'], 62: ['engine'] },
    ],
    ['a longer message', [sysex(0, [0x7f, 0x7f, 4, 4, 0, 66, 0])], { 60: ['plain'] }],
    ['a shorter message', [sysex(0, [0x7f, 0x7f, 4, 4, 66])], { 60: ['plain'] }],
    ['master fine tuning', [sysex(0, [0x7f, 0x7f, 4, 3, 0, 66])], { 60: ['plain'] }],
    ['a reset', [...tune(2), master(3), sysex(4, gmOn(0x7f))], { 60: ['plain'] }],
    ['a reset deselects', [...tune(0), sysex(4, gmOn(0x7f)), control(5, 6, 66)], { 60: ['plain'] }],
    ['a reset for others', [...tune(2), sysex(4, gmOn(0x00))], { 60: ['plain'], 62: ['engine'] }],
  ])('%s', (_, events, expected) => {
    expect(keysReached(events)).toEqual(expected);
  });

  test('a drum channel keeps its keys', () => {
    expect(keysReached([...tune(2, 9), master(3)], 60, 9)).toEqual({ 60: ['plain'] });
  });

  test('a tuned key beyond the keyboard is none', () => {
    expect(keysReached(tune(2), 126)).toEqual({ 126: ['plain'] });
    expect(keysReached(tune(1), 126)).toEqual({ 126: ['plain'], 127: ['engine'] });
    expect(keysReached(tune(-3), 2)).toEqual({ 2: ['plain'] });
  });
});
