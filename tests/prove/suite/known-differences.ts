/**
 * Cues of the suite in which FluidSynth 2.3.1 does not play what the plain reading says, and why. Where
 * it plays more, a doubt must cover it. A cue that is named here and does not differ fails the proof.
 */
export const knownDifferences: ReadonlyMap<string, string> = new Map([
  ['gm off', 'it ignores the message; plain takes it as a reset (MIDI 1.0, GM system off)'],
  ['gm on, gm off', 'it stays in gm mode; plain goes back to gs mode'],
  ['gs exit', 'it goes to gm mode; plain takes it as a GS reset'],
  ['xg melody on channel 10', 'a channel that drummed keeps bank 128 until a bank select'],
  ['gs melody on channel 10', 'a channel that drummed keeps bank 128 until a bank select'],
  [
    'legato, a key again below another',
    'the note-off takes the first strike off its list, plain takes off the key',
  ],
  ['legato, eleven keys', 'its list of held notes holds ten'],
  ['a chord before the pedal', 'of notes played before the pedal it only knows the last'],
  [
    'a chord before the pedal, last key up again',
    'of notes played before the pedal it only knows the last',
  ],
  [
    'the pedal up and down while keys are held',
    'the pedal going up leaves only the last note on its list',
  ],
  [
    'legato and all notes off',
    'its list of held notes outlives CC123 (MIDI 1.0 ends the notes); doubt engine covers it',
  ],
  [
    'legato and all sound off',
    'its list of held notes outlives CC120 (MIDI 1.0 ends the notes); doubt engine covers it',
  ],
  [
    'mono mode on channel 1, a part on channel 4',
    'CC126 with 0 covers every channel from there on; plain takes it for its own channel',
  ],
  [
    'mono mode of four channels',
    'CC126 with 4 covers four channels; plain takes it for its own channel',
  ],
  ['mono mode on channel 4', 'mode messages count on a basic channel only, which is channel 1'],
  ['mono mode of one channel', 'the channels after the group are switched off'],
  ['omni off', 'the channels after the basic channel are switched off'],
]);
