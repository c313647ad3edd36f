import {
  bend,
  control,
  cue,
  note,
  off,
  on,
  program,
  type Phrase,
  type SuiteCue,
} from './events.ts';

/** Tunes channel 1 by a registered parameter: coarse (2) or fine (1). */
const tune = (tick: number, parameter: 1 | 2, value: number): Phrase => [
  control(tick, 0, 101, 0),
  control(tick, 0, 100, parameter),
  control(tick, 0, 6, value),
];

/** Notes at the edges, pedals, and controllers that silence or tune. */
export const noteCues = (): readonly SuiteCue[] => [
  cue('velocities', '0:0 0:0 0:0 0:0', [
    [note(0, 0, 60, 1), note(480, 0, 62, 63), note(960, 0, 64, 64), note(1440, 0, 65, 127)],
  ]),
  cue('velocity 0 ends a note', '0:0 0:0', [on(0, 0, 60), on(240, 0, 60, 0), note(480, 0, 62)]),
  cue('keys', '0:0 0:0 0:0 0:0', [
    [note(0, 0, 0), note(480, 0, 63), note(960, 0, 64), note(1440, 0, 127)],
  ]),
  cue('chord', '0:0 0:0 0:0 0:0', [note(0, 0, 48), note(0, 0, 60), note(0, 0, 67), note(0, 1, 72)]),
  cue('notes of no length', '0:0 128:0 0:0', [
    [on(0, 0, 60), off(0, 0, 60), on(240, 9, 38), off(240, 9, 38), note(480, 0, 62)],
  ]),
  cue('one key again and again', '0:0 0:0 0:0', [
    [on(0, 0, 60, 40), on(120, 0, 60, 80), on(240, 0, 60, 100), off(480, 0, 60)],
    [off(600, 0, 60), off(720, 0, 60)],
  ]),
  cue('notes never released', '0:0 0:0 128:0', [on(0, 0, 60), on(240, 0, 64), on(480, 9, 36)]),
  cue('release without a note', '0:0', [off(0, 0, 60), note(240, 0, 62), off(720, 0, 62)]),
  cue('sustain pedal', '0:0 0:0 0:0', [
    [control(0, 0, 64, 127), note(0, 0, 60), note(480, 0, 60), note(480, 0, 67)],
    control(1440, 0, 64, 0),
  ]),
  cue('sostenuto pedal', '0:0 0:0 0:0', [
    [on(0, 0, 60), control(120, 0, 66, 127), off(240, 0, 60), note(480, 0, 67)],
    [note(960, 0, 60), control(1440, 0, 66, 0)],
  ]),
  cue('soft pedal', '0:0', [control(0, 0, 67, 127), note(0, 0, 60), control(480, 0, 67, 0)]),
  cue('volume at zero', '0:0 0:0', [
    [control(0, 0, 7, 0), note(0, 0, 60), control(480, 0, 7, 100), control(480, 0, 11, 0)],
    note(480, 0, 67),
  ]),
  cue('all sound off', '0:0 0:0 0:0', [
    [on(0, 0, 60), control(240, 0, 120, 0), off(480, 0, 60), note(480, 0, 62)],
    [on(960, 0, 64), control(960, 0, 120, 0), off(1200, 0, 64)],
  ]),
  cue('all notes off', '0:0 0:0', [
    [on(0, 0, 60), control(240, 0, 123, 0), off(480, 0, 60), note(480, 0, 62)],
  ]),
  cue('controllers reset', '8:4 8:4 8:4', [
    [control(0, 0, 0, 8), program(0, 0, 4), note(0, 0, 60), control(480, 0, 121, 0)],
    [note(480, 0, 62), program(960, 0, 4), note(960, 0, 64)],
  ]),
  cue('coarse tuning', '0:0 0:0 0:0', [
    [tune(0, 2, 64 + 12), note(0, 0, 58), note(480, 0, 70), tune(960, 2, 64)],
    note(960, 0, 58),
  ]),
  cue('coarse tuning on channel 10', '128:0', [
    [control(0, 9, 101, 0), control(0, 9, 100, 2), control(0, 9, 6, 76), note(0, 9, 58)],
  ]),
  cue('fine tuning and bend', '0:0 0:0', [
    [tune(0, 1, 96), note(0, 0, 63), bend(480, 0, 8191), note(480, 0, 62), bend(960, 0, 0)],
  ]),
  cue('generator by NRPN', '0:0', [
    [control(0, 0, 99, 120), control(0, 0, 98, 48), control(0, 0, 38, 0), control(0, 0, 6, 66)],
    note(0, 0, 60),
  ]),
  cue('portamento from a key', '0:0 0:0', [
    [on(0, 0, 36), control(240, 0, 84, 36), on(480, 0, 72), off(720, 0, 36), off(960, 0, 72)],
  ]),
];
