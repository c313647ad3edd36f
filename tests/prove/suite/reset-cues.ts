import { control, cue, note, program, type Phrase, type SuiteCue, type Timed } from './events.ts';
import {
  generalMidi,
  gsExit,
  gsReset,
  gsResetDamaged,
  rhythmPart,
  xgAllReset,
  xgOn,
} from './system-messages.ts';

// Between a program and its note lies time, so that nothing is kept for the doubt of their order.

/** Asks once for bank 8 by CC0 and once by CC32: what answers tells the mode. */
const probe = (tick: number, channel = 0): Phrase => [
  [control(tick, channel, 0, 8), control(tick, channel, 32, 0), program(tick, channel, 4)],
  note(tick + 120, channel, 60),
  [control(tick + 480, channel, 0, 0), control(tick + 480, channel, 32, 8)],
  [program(tick + 480, channel, 4), note(tick + 600, channel, 67)],
];

/** A phrase with a program of its own, before the message under test. */
const before: Phrase = [
  [program(0, 0, 40), note(120, 0, 55)],
  [program(0, 9, 8), note(120, 9, 38)],
];

/** The same parts after it: what a reset put back. */
const after = (tick: number): Phrase => [note(tick, 0, 57), note(tick, 9, 42)];

const reset = (name: string, plays: string, ...messages: readonly Timed[]): SuiteCue =>
  cue(name, plays, [before, messages, after(600), probe(960)]);

/** System messages that change how banks are read, or which part plays drums. */
export const resetCues = (): readonly SuiteCue[] => [
  reset('no reset', '0:40 128:8 0:40 128:8 8:4 0:4'),
  reset('gm on', '0:40 128:8 0:0 128:0 0:4 0:4', generalMidi(480, 1)),
  reset('gm on, device 16', '0:40 128:8 0:0 128:0 0:4 0:4', generalMidi(480, 1, 0x10)),
  reset('gm on, device 0', '0:40 128:8 0:40 128:8 8:4 0:4', generalMidi(480, 1, 0x00)),
  reset('gm on, device 17', '0:40 128:8 0:40 128:8 8:4 0:4', generalMidi(480, 1, 0x11)),
  reset('gm2 on', '0:40 128:8 0:0 128:0 0:4 0:4', generalMidi(480, 3)),
  reset('gm off', '0:40 128:8 0:40 128:8 8:4 0:4', generalMidi(480, 2)),
  reset('gm on, gm off', '0:40 128:8 0:0 128:0 0:4 0:4', generalMidi(480, 1), generalMidi(500, 2)),
  reset('gm on, gs reset', '0:40 128:8 0:0 128:0 8:4 0:4', generalMidi(480, 1), gsReset(500)),
  reset(
    'gm on, gs reset on its tick',
    '0:40 128:8 0:0 128:0 8:4 0:4',
    generalMidi(480, 1),
    gsReset(480),
  ),
  reset(
    'gm on, gs reset for all',
    '0:40 128:8 0:0 128:0 8:4 0:4',
    generalMidi(480, 1),
    gsReset(500, 0x7f),
  ),
  reset(
    'gm on, gs reset, device 0',
    '0:40 128:8 0:0 128:0 0:4 0:4',
    generalMidi(480, 1),
    gsReset(500, 0x00),
  ),
  reset(
    'gm on, gs reset, device 17',
    '0:40 128:8 0:0 128:0 0:4 0:4',
    generalMidi(480, 1),
    gsReset(500, 0x11),
  ),
  reset(
    'gm on, damaged gs reset',
    '0:40 128:8 0:0 128:0 0:4 0:4',
    generalMidi(480, 1),
    gsResetDamaged(500),
  ),
  reset('gs reset', '0:40 128:8 0:0 128:0 8:4 0:4', gsReset(480)),
  reset('gs exit', '0:40 128:8 0:0 128:0 0:4 0:4', gsExit(480)),
  reset('xg on', '0:40 128:8 0:0 128:0 0:4 8:4', xgOn(480)),
  reset('xg on, device 1', '0:40 128:8 0:40 128:8 8:4 0:4', xgOn(480, 0x11)),
  reset('xg on, device 0', '0:40 128:8 0:40 128:8 8:4 0:4', xgOn(480, 0x00)),
  reset('xg all reset', '0:40 128:8 0:0 128:0 0:4 8:4', xgAllReset(480)),
  reset('xg on, gs reset', '0:40 128:8 0:0 128:0 8:4 0:4', xgOn(480), gsReset(500)),
  cue('bank selected before a reset', '0:4', [
    control(0, 0, 0, 8),
    gsReset(120),
    program(240, 0, 4),
    note(240, 0, 60),
  ]),
  cue('xg kits on a melodic channel', '0:4 128:8 0:4 128:25 0:5 128:8', [
    [xgOn(0), program(60, 0, 4), control(60, 0, 0, 127), note(120, 0, 60)],
    [program(480, 0, 8), note(600, 0, 62)],
    [control(960, 0, 0, 0), program(960, 0, 4), note(1080, 0, 64)],
    [control(1440, 0, 0, 126), program(1440, 0, 25), note(1560, 0, 65)],
    [control(1920, 0, 0, 64), program(1920, 0, 5), note(2040, 0, 67)],
    [control(2400, 0, 0, 121), program(2400, 0, 8), note(2520, 0, 69)],
  ]),
  cue('xg melody on channel 10', '128:0 128:0 0:4 128:8 0:0 128:25', [
    [xgOn(0), note(120, 9, 36), control(480, 9, 0, 0), note(600, 9, 38)],
    [program(960, 9, 4), note(1080, 9, 60), program(1440, 9, 8), note(1560, 9, 62)],
    [control(1920, 9, 32, 0), program(1920, 9, 8), note(2040, 9, 64)],
    [control(2400, 9, 0, 127), program(2400, 9, 25), note(2520, 9, 65)],
  ]),
  cue('gs rhythm part', '0:4 128:0 128:25 128:8 0:0 0:4', [
    [program(0, 1, 4), note(120, 1, 60), rhythmPart(480, 2, 1), note(600, 1, 36)],
    [program(960, 1, 25), note(1080, 1, 38), control(1440, 1, 0, 8), program(1440, 1, 8)],
    [note(1560, 1, 40), rhythmPart(1920, 2, 0), note(2040, 1, 62)],
    [program(2400, 1, 4), note(2520, 1, 64)],
  ]),
  cue('gs rhythm part, device 17', '0:4 0:4 0:0', [
    [program(0, 1, 4), note(120, 1, 60), rhythmPart(480, 2, 1, 0x11), note(600, 1, 36)],
    [program(960, 1, 25), note(1080, 1, 38)],
  ]),
  cue('gs melody on channel 10', '128:0 128:0 0:4 128:8 8:4', [
    [note(0, 9, 36), rhythmPart(480, 0, 0), note(600, 9, 60)],
    [program(960, 9, 4), note(1080, 9, 62), program(1440, 9, 8), note(1560, 9, 64)],
    [control(1920, 9, 0, 8), program(1920, 9, 4), note(2040, 9, 65)],
  ]),
  cue('gs rhythm part in gm mode', '0:0 0:0', [
    [generalMidi(0, 1), rhythmPart(120, 2, 1), note(240, 1, 36)],
    [program(480, 1, 25), note(600, 1, 38)],
  ]),
];
