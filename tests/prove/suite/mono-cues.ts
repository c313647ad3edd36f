import { control, cue, note, off, on, program, type Phrase, type SuiteCue } from './events.ts';

// Every part sets its program before its first note, and changes it while keys are held: the key that
// is gone back to then plays another preset than it did at first.

const pedal = (tick: number, value = 127, channel = 0): Phrase => control(tick, channel, 68, value);

const start = (channel = 0): Phrase => [program(0, channel, 0), pedal(0, 127, channel)];

/** Key 36 with the pedal down, then 72 over it; the program changes at 720. */
const two = (channel = 0): Phrase => [
  [start(channel), on(120, channel, 36), on(480, channel, 72, 50)],
  program(720, channel, 40),
];

/** Keys 36, 60 and 72, one over the other, with a program change after the last. */
const three: Phrase = [
  [start(), on(120, 0, 36), on(240, 0, 60, 70), on(480, 0, 72, 50)],
  program(600, 0, 4),
];

const lastFirst = (channel = 0): Phrase => [off(960, channel, 72), off(1440, channel, 36)];

/** The legato pedal, which makes a part go back to a key that is held. */
export const legatoCues = (): readonly SuiteCue[] => [
  cue('legato, first key up first', '0:0 0:0', [two(), off(960, 0, 36), off(1440, 0, 72)]),
  cue('legato, last key up first', '0:0 0:0 0:40', [two(), lastFirst()]),
  cue('legato, three keys, downwards', '0:0 0:0 0:0 0:4 0:5', [
    [three, off(720, 0, 72), program(840, 0, 5), off(960, 0, 60), off(1200, 0, 36)],
  ]),
  cue('legato, three keys, middle first', '0:0 0:0 0:0 0:5', [
    [three, off(720, 0, 60), program(840, 0, 5), off(960, 0, 72), off(1200, 0, 36)],
  ]),
  cue('legato, one key twice', '0:0 0:0', [
    [start(), on(120, 0, 60), on(240, 0, 60, 50), program(360, 0, 4), off(480, 0, 60)],
    off(720, 0, 60),
  ]),
  cue('legato, a key again below another', '0:0 0:0 0:0', [
    [start(), on(120, 0, 60), on(240, 0, 72), on(360, 0, 60, 50), program(480, 0, 4)],
    [off(600, 0, 60), program(660, 0, 5), off(720, 0, 72), program(780, 0, 40), off(840, 0, 60)],
  ]),
  cue(
    'legato, eleven keys',
    '0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0',
    [
      start(),
      Array.from({ length: 11 }, (_, i) => on(120 + i * 60, 0, 36 + 3 * i)),
      Array.from({ length: 10 }, (_, i) => off(840 + i * 60, 0, 66 - 3 * i)),
      [program(1400, 0, 4), off(1440, 0, 36)],
    ],
  ),
  cue(
    'legato, ten keys',
    '0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:0 0:4',
    [
      start(),
      Array.from({ length: 10 }, (_, i) => on(120 + i * 60, 0, 36 + 3 * i)),
      Array.from({ length: 8 }, (_, i) => off(840 + i * 60, 0, 63 - 3 * i)),
      [program(1400, 0, 4), off(1440, 0, 39), off(1500, 0, 36)],
    ],
  ),
  cue('a chord before the pedal', '0:0 0:0 0:0 0:4', [
    [program(0, 0, 0), on(120, 0, 36), on(120, 0, 48), pedal(240), on(480, 0, 72)],
    [program(600, 0, 4), off(720, 0, 72), program(840, 0, 5), off(960, 0, 48), off(1200, 0, 36)],
  ]),
  cue('a chord before the pedal, last key up again', '0:0 0:0 0:0', [
    [program(0, 0, 0), on(120, 0, 36), on(120, 0, 48), off(200, 0, 48), pedal(240)],
    [on(480, 0, 72), program(600, 0, 4), off(720, 0, 72), off(1200, 0, 36)],
  ]),
  cue('a chord before the pedal, first key up again', '0:0 0:0 0:0 0:4', [
    [program(0, 0, 0), on(120, 0, 36), on(120, 0, 48), off(200, 0, 36), pedal(240)],
    [on(480, 0, 72), program(600, 0, 4), off(720, 0, 72), off(1200, 0, 48)],
  ]),
  cue('the pedal up while keys are held', '0:0 0:0 0:0', [
    [three, pedal(660, 0), off(720, 0, 72), off(960, 0, 60), off(1200, 0, 36)],
  ]),
  cue('the pedal up and down while keys are held', '0:0 0:0 0:0 0:4', [
    [start(), on(120, 0, 36), on(240, 0, 60), pedal(360, 0), pedal(400), on(480, 0, 72)],
    [program(660, 0, 4), off(720, 0, 72), program(840, 0, 5), off(960, 0, 60), off(1200, 0, 36)],
  ]),
  cue('the pedal at 63 and 64', '0:0 0:0 0:4 0:4 0:5', [
    [program(0, 0, 0), pedal(0, 63), on(120, 0, 36), on(240, 0, 72), program(300, 0, 4)],
    [off(360, 0, 72), off(480, 0, 36), pedal(600, 64), on(720, 0, 36), on(960, 0, 72)],
    [program(1000, 0, 5), off(1080, 0, 72), off(1200, 0, 36)],
  ]),
  cue('legato and all notes off', '0:0 0:0 0:40', [two(), control(840, 0, 123, 0), lastFirst()]),
  cue('legato and all sound off', '0:0 0:0 0:40', [two(), control(840, 0, 120, 0), lastFirst()]),
  cue('legato and controllers reset', '0:0 0:0', [two(), control(840, 0, 121, 0), lastFirst()]),
  cue('legato and controllers reset, pedal again', '0:0 0:0 0:40', [
    [two(), control(840, 0, 121, 0), pedal(860), lastFirst()],
  ]),
  cue('legato on another channel', '0:0 0:0 0:0 0:0 0:40', [
    [two(1), program(0, 0, 0), on(120, 0, 36), on(480, 0, 72), program(720, 0, 4)],
    [off(960, 0, 72), lastFirst(1), off(1440, 0, 36)],
  ]),
  cue('legato kit', '128:0 128:0 128:8', [
    [start(9), on(120, 9, 36), on(240, 9, 72), program(300, 9, 8), off(360, 9, 72)],
    off(480, 9, 36),
  ]),
  cue('legato and sustain pedal', '0:0 0:0 0:40', [
    [two(), control(800, 0, 64, 127), lastFirst(), control(1600, 0, 64, 0)],
  ]),
];

/** Two keys over each other with a program change, then both up. */
const back = (channel: number): Phrase => [
  [program(0, channel, 0), on(120, channel, 36), on(240, channel, 72)],
  [program(300, channel, 4), off(360, channel, 72), off(480, channel, 36)],
];

/** Mode messages: mono, poly, omni. */
export const modeCues = (): readonly SuiteCue[] => [
  cue('mono mode on channel 1', '0:0 0:0 0:4', [control(0, 0, 126, 0), back(0)]),
  cue('mono mode on channel 1, a part on channel 4', '0:0 0:0 0:4', [
    control(0, 0, 126, 0),
    back(3),
  ]),
  cue('mono mode on channel 4', '0:0 0:0', [control(0, 3, 126, 0), back(3)]),
  cue('mono mode of one channel', '0:0 0:0 0:4', [
    control(0, 0, 126, 1),
    back(0),
    note(600, 3, 60),
  ]),
  cue('mono mode of four channels', '0:0 0:0 0:4', [
    control(0, 0, 126, 4),
    back(3),
    note(600, 4, 60),
  ]),
  cue('mono mode, then poly', '0:0 0:0', [control(0, 0, 126, 0), control(60, 0, 127, 0), back(0)]),
  cue('poly while keys are held', '0:0 0:0', [
    [program(0, 0, 0), control(0, 0, 126, 0), on(120, 0, 36), on(240, 0, 72)],
    [control(280, 0, 127, 0), program(300, 0, 4), off(360, 0, 72), off(480, 0, 36)],
  ]),
  cue('omni off', '0:0 0:0 128:0', [
    [control(0, 0, 124, 0), note(120, 0, 60), note(480, 3, 60), note(480, 9, 36)],
    [control(960, 0, 125, 0), note(1080, 3, 62), note(1080, 9, 38)],
  ]),
];
