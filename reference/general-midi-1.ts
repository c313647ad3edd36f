/**
 * General MIDI System Level 1 (RP-003): the sound set (tables "General MIDI Sound Set Groupings" and
 * "General MIDI Sound Set") and the percussion key map ("General MIDI Percussion Map").
 *
 * Looked up in stored copies: the requirement documents of zarfld/MIDI_1.0 written from RP-003
 * (REQ-F-GM1-001 and -002), the program names quoted in melanchall/drywetmidi
 * (GeneralMidiProgram.cs), the drum names in the abcmidi source. The titles of the tables are from
 * memory.
 *
 * Programs count from 0 as in the message; the standard's table prints them from 1.
 *
 * Copies differ in spelling, never in order. Kept here is what most copies that name RP-003 have:
 * `Guitar harmonics` (zarfld: Guitar Harmonics), `Bag pipe` (many lists: Bagpipe), `Clavi` (Clavinet),
 * `SynthStrings 1`, `SynthBrass 1` (Synth Strings 1, Synth Brass 1), `Closed Hi Hat` beside
 * `Pedal Hi-Hat` and `Open Hi-Hat`, `Low-Mid Tom` beside `Hi Mid Tom` (drywetmidi: Closed Hi-Hat,
 * Hi-Mid Tom). One stored version of drywetmidi numbers the drums from 34: off by one, not used.
 */

/** A group of eight neighbouring programs. */
export interface ProgramFamily {
  readonly name: string;
  /** The names of its eight programs, lowest number first. */
  readonly programs: readonly string[];
}

/** The sixteen families in order: family n holds the programs 8n to 8n + 7. */
export const programFamilies: readonly ProgramFamily[] = [
  {
    name: 'Piano',
    programs: [
      'Acoustic Grand Piano',
      'Bright Acoustic Piano',
      'Electric Grand Piano',
      'Honky-tonk Piano',
      'Electric Piano 1',
      'Electric Piano 2',
      'Harpsichord',
      'Clavi',
    ],
  },
  {
    name: 'Chromatic Percussion',
    programs: [
      'Celesta',
      'Glockenspiel',
      'Music Box',
      'Vibraphone',
      'Marimba',
      'Xylophone',
      'Tubular Bells',
      'Dulcimer',
    ],
  },
  {
    name: 'Organ',
    programs: [
      'Drawbar Organ',
      'Percussive Organ',
      'Rock Organ',
      'Church Organ',
      'Reed Organ',
      'Accordion',
      'Harmonica',
      'Tango Accordion',
    ],
  },
  {
    name: 'Guitar',
    programs: [
      'Acoustic Guitar (nylon)',
      'Acoustic Guitar (steel)',
      'Electric Guitar (jazz)',
      'Electric Guitar (clean)',
      'Electric Guitar (muted)',
      'Overdriven Guitar',
      'Distortion Guitar',
      'Guitar harmonics',
    ],
  },
  {
    name: 'Bass',
    programs: [
      'Acoustic Bass',
      'Electric Bass (finger)',
      'Electric Bass (pick)',
      'Fretless Bass',
      'Slap Bass 1',
      'Slap Bass 2',
      'Synth Bass 1',
      'Synth Bass 2',
    ],
  },
  {
    name: 'Strings',
    programs: [
      'Violin',
      'Viola',
      'Cello',
      'Contrabass',
      'Tremolo Strings',
      'Pizzicato Strings',
      'Orchestral Harp',
      'Timpani',
    ],
  },
  {
    name: 'Ensemble',
    programs: [
      'String Ensemble 1',
      'String Ensemble 2',
      'SynthStrings 1',
      'SynthStrings 2',
      'Choir Aahs',
      'Voice Oohs',
      'Synth Voice',
      'Orchestra Hit',
    ],
  },
  {
    name: 'Brass',
    programs: [
      'Trumpet',
      'Trombone',
      'Tuba',
      'Muted Trumpet',
      'French Horn',
      'Brass Section',
      'SynthBrass 1',
      'SynthBrass 2',
    ],
  },
  {
    name: 'Reed',
    programs: [
      'Soprano Sax',
      'Alto Sax',
      'Tenor Sax',
      'Baritone Sax',
      'Oboe',
      'English Horn',
      'Bassoon',
      'Clarinet',
    ],
  },
  {
    name: 'Pipe',
    programs: [
      'Piccolo',
      'Flute',
      'Recorder',
      'Pan Flute',
      'Blown Bottle',
      'Shakuhachi',
      'Whistle',
      'Ocarina',
    ],
  },
  {
    name: 'Synth Lead',
    programs: [
      'Lead 1 (square)',
      'Lead 2 (sawtooth)',
      'Lead 3 (calliope)',
      'Lead 4 (chiff)',
      'Lead 5 (charang)',
      'Lead 6 (voice)',
      'Lead 7 (fifths)',
      'Lead 8 (bass + lead)',
    ],
  },
  {
    name: 'Synth Pad',
    programs: [
      'Pad 1 (new age)',
      'Pad 2 (warm)',
      'Pad 3 (polysynth)',
      'Pad 4 (choir)',
      'Pad 5 (bowed)',
      'Pad 6 (metallic)',
      'Pad 7 (halo)',
      'Pad 8 (sweep)',
    ],
  },
  {
    name: 'Synth Effects',
    programs: [
      'FX 1 (rain)',
      'FX 2 (soundtrack)',
      'FX 3 (crystal)',
      'FX 4 (atmosphere)',
      'FX 5 (brightness)',
      'FX 6 (goblins)',
      'FX 7 (echoes)',
      'FX 8 (sci-fi)',
    ],
  },
  {
    name: 'Ethnic',
    programs: ['Sitar', 'Banjo', 'Shamisen', 'Koto', 'Kalimba', 'Bag pipe', 'Fiddle', 'Shanai'],
  },
  {
    name: 'Percussive',
    programs: [
      'Tinkle Bell',
      'Agogo',
      'Steel Drums',
      'Woodblock',
      'Taiko Drum',
      'Melodic Tom',
      'Synth Drum',
      'Reverse Cymbal',
    ],
  },
  {
    name: 'Sound Effects',
    programs: [
      'Guitar Fret Noise',
      'Breath Noise',
      'Seashore',
      'Bird Tweet',
      'Telephone Ring',
      'Helicopter',
      'Applause',
      'Gunshot',
    ],
  },
];

/** The 128 program names; the index is the program number, 0 to 127. */
export const programNames: readonly string[] = programFamilies.flatMap((family) => family.programs);

/** The channel of the percussion key map, counted from 1. */
export const percussionChannel = 10;

/** One drum of the percussion key map. */
export interface PercussionKey {
  readonly key: number;
  readonly name: string;
}

/** The percussion key map: keys 35 to 81 on channel 10. */
export const percussionKeys: readonly PercussionKey[] = [
  { key: 35, name: 'Acoustic Bass Drum' },
  { key: 36, name: 'Bass Drum 1' },
  { key: 37, name: 'Side Stick' },
  { key: 38, name: 'Acoustic Snare' },
  { key: 39, name: 'Hand Clap' },
  { key: 40, name: 'Electric Snare' },
  { key: 41, name: 'Low Floor Tom' },
  { key: 42, name: 'Closed Hi Hat' },
  { key: 43, name: 'High Floor Tom' },
  { key: 44, name: 'Pedal Hi-Hat' },
  { key: 45, name: 'Low Tom' },
  { key: 46, name: 'Open Hi-Hat' },
  { key: 47, name: 'Low-Mid Tom' },
  { key: 48, name: 'Hi Mid Tom' },
  { key: 49, name: 'Crash Cymbal 1' },
  { key: 50, name: 'High Tom' },
  { key: 51, name: 'Ride Cymbal 1' },
  { key: 52, name: 'Chinese Cymbal' },
  { key: 53, name: 'Ride Bell' },
  { key: 54, name: 'Tambourine' },
  { key: 55, name: 'Splash Cymbal' },
  { key: 56, name: 'Cowbell' },
  { key: 57, name: 'Crash Cymbal 2' },
  { key: 58, name: 'Vibraslap' },
  { key: 59, name: 'Ride Cymbal 2' },
  { key: 60, name: 'Hi Bongo' },
  { key: 61, name: 'Low Bongo' },
  { key: 62, name: 'Mute Hi Conga' },
  { key: 63, name: 'Open Hi Conga' },
  { key: 64, name: 'Low Conga' },
  { key: 65, name: 'High Timbale' },
  { key: 66, name: 'Low Timbale' },
  { key: 67, name: 'High Agogo' },
  { key: 68, name: 'Low Agogo' },
  { key: 69, name: 'Cabasa' },
  { key: 70, name: 'Maracas' },
  { key: 71, name: 'Short Whistle' },
  { key: 72, name: 'Long Whistle' },
  { key: 73, name: 'Short Guiro' },
  { key: 74, name: 'Long Guiro' },
  { key: 75, name: 'Claves' },
  { key: 76, name: 'Hi Wood Block' },
  { key: 77, name: 'Low Wood Block' },
  { key: 78, name: 'Mute Cuica' },
  { key: 79, name: 'Open Cuica' },
  { key: 80, name: 'Mute Triangle' },
  { key: 81, name: 'Open Triangle' },
];
