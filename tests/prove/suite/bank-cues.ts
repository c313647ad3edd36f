import { control, cue, note, off, on, program, type SuiteCue } from './events.ts';

/** Banks, programs and kits, and the order in which they arrive. */
export const bankCues = (): readonly SuiteCue[] => [
  cue('no program at all', '0:0 0:0 128:0', [note(0, 0, 60), note(480, 5, 62), note(960, 9, 36)]),
  cue('bank by CC0', '8:4 0:5 8:4', [
    [control(0, 0, 0, 8), program(0, 0, 4), note(120, 0, 60)],
    [program(480, 0, 5), note(600, 0, 62), program(960, 0, 4), note(1080, 0, 64)],
  ]),
  cue('bank by CC32', '0:4', [control(0, 0, 32, 8), program(0, 0, 4), note(120, 0, 60)]),
  cue('bank by both', '1:4 8:4', [
    [control(0, 0, 0, 1), control(0, 0, 32, 8), program(0, 0, 4), note(120, 0, 60)],
    [control(480, 0, 32, 1), control(480, 0, 0, 8), program(480, 0, 4), note(600, 0, 62)],
  ]),
  cue('bank of level 2', '121:4 0:0', [
    [control(0, 0, 0, 121), control(0, 0, 32, 1), program(0, 0, 4), note(120, 0, 60)],
    [control(480, 0, 0, 120), control(480, 0, 32, 0), program(480, 0, 8), note(600, 0, 62)],
  ]),
  cue('bank that is missing', '0:4 0:0 0:40', [
    [control(0, 0, 0, 5), program(0, 0, 4), note(120, 0, 60)],
    [program(480, 0, 9), note(600, 0, 62), control(960, 0, 0, 0), program(960, 0, 40)],
    note(1080, 0, 64),
  ]),
  cue('program that is missing', '0:0 0:0 127:8', [
    [program(0, 0, 77), note(120, 0, 60), control(480, 0, 0, 8), program(480, 0, 77)],
    [note(600, 0, 62), control(960, 0, 0, 127), program(960, 0, 8), note(1080, 0, 64)],
  ]),
  cue('kits on channel 10', '128:0 128:8 128:0 128:25', [
    [note(0, 9, 36), program(480, 9, 8), note(600, 9, 38), program(960, 9, 7), note(1080, 9, 40)],
    [program(1440, 9, 25), note(1560, 9, 42)],
  ]),
  cue('bank selects on channel 10', '128:8 128:25 128:0', [
    [control(0, 9, 0, 8), control(0, 9, 32, 8), program(0, 9, 8), note(120, 9, 36)],
    [control(480, 9, 0, 127), program(480, 9, 25), note(600, 9, 38)],
    [control(960, 9, 0, 0), program(960, 9, 4), note(1080, 9, 40)],
  ]),
  cue('note before its program', '0:0 0:4', [note(0, 0, 60), program(480, 0, 4), note(480, 0, 62)]),
  cue('program, then note on one tick', '0:5 0:4', [
    [program(0, 0, 5), note(0, 0, 60), program(480, 0, 4), note(480, 0, 62)],
  ]),
  cue('note, then program on one tick', '0:5 0:4', [
    [program(0, 0, 5), on(480, 0, 60), program(480, 0, 4), off(720, 0, 60), note(960, 0, 62)],
  ]),
  cue('bank after program on one tick', '0:4 8:4', [
    [program(0, 0, 4), control(0, 0, 0, 8), note(0, 0, 60), program(480, 0, 4), note(480, 0, 62)],
  ]),
  cue('bank between program and note on one tick', '1:4 1:4 8:4', [
    [control(0, 0, 0, 1), program(0, 0, 4), control(0, 0, 0, 8), note(0, 0, 60)],
    [note(480, 0, 62), program(960, 0, 4), note(960, 0, 64)],
  ]),
  cue('bank without a program', '0:5 0:5 0:4', [
    [program(0, 0, 5), note(120, 0, 60), control(480, 0, 0, 8), note(480, 0, 62)],
    [control(960, 0, 0, 0), program(960, 0, 4), note(1080, 0, 64)],
  ]),
  cue('program twice on one tick', '0:4 0:5', [
    [program(0, 0, 4), on(0, 0, 60), program(0, 0, 5), on(0, 0, 62), off(240, 0, 60)],
    off(240, 0, 62),
  ]),
  cue(
    'program of another track on the tick of a note',
    '0:5 0:4',
    [note(480, 0, 60)],
    [[program(0, 0, 5), program(480, 0, 4), note(960, 0, 62)]],
  ),
  cue(
    'program of an earlier track on the tick of a note',
    '0:4',
    [[program(0, 0, 5), program(480, 0, 4)]],
    [note(480, 0, 60)],
  ),
  cue('channels keep to themselves', '8:4 0:4 1:4 0:0', [
    [control(0, 0, 0, 8), program(0, 1, 4), program(0, 0, 4), control(0, 2, 0, 1)],
    [program(0, 2, 4), note(120, 0, 60), note(120, 1, 62), note(120, 2, 64), note(120, 3, 65)],
  ]),
];
