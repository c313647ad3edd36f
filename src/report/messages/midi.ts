import { formatCount, plural } from '../format.ts';
import { printable } from '../../terms/printable.ts';
import { words, type Wording } from './words.ts';

const exportAgain = 'Export the cue again from the session and compare.';
const unknownFromHere =
  'What this track plays from here on is unknown, so everything it could reach counts as needed.';
const nothingToDo = 'Nothing needs to be done.';

const hexByte = (value: number): string => `0x${value.toString(16).padStart(2, '0')}`;

/** Meta events of a set length, by type (SMF 1.0, "Meta-Events"). */
const metaNames: Readonly<Record<number, string>> = {
  0x00: 'A sequence number',
  0x20: 'A channel prefix',
  0x21: 'A port number',
  0x2f: 'An end mark',
  0x51: 'A tempo',
  0x54: 'A start time',
  0x58: 'A meter',
  0x59: 'A key signature',
};

/** What a Standard MIDI File holds, or should. */
export const midiWording: Wording<
  | 'midi-empty'
  | 'midi-not-a-midi-file'
  | 'midi-division-zero'
  | 'midi-format-unknown'
  | 'midi-header-length'
  | 'midi-header-repeated'
  | 'midi-no-tracks'
  | 'chunk-unknown'
  | 'chunk-cut'
  | 'tracks-beyond-header'
  | 'tracks-missing'
  | 'track-truncated'
  | 'track-data-byte'
  | 'track-status'
  | 'track-quantity'
  | 'track-no-end'
  | 'track-after-end'
  | 'running-status-after-meta'
  | 'meta-length'
  | 'sysex-escape'
  | 'tempo-zero'
  | 'meter-odd'
  | 'port-odd'
  | 'midi-header-cut'
> = {
  'midi-empty': () =>
    words('The file is empty.', 'Export the cue again; the export or the copy did not finish.'),
  'midi-not-a-midi-file': ({ begins }) =>
    words(
      `This is not a Standard MIDI File: it begins with "${printable(begins)}" instead of "MThd".`,
      'Export the cue as a Standard MIDI File; a session or project file cannot be read.',
    ),
  'midi-division-zero': () =>
    words(
      'The header says that a beat has no length (division 0), so its notes cannot be placed in time.',
      'Export the cue again, with 480 or 960 ticks per quarter note if the program asks.',
    ),
  'midi-format-unknown': ({ format }) =>
    words(
      `The file calls itself format ${formatCount(format)}; there are only 0, 1 and 2.`,
      'Export the cue again as format 1, one track per part.',
    ),
  'midi-header-length': ({ length }) =>
    words(
      `The header is ${plural(length, 'byte')} long instead of 6; the rest of it was skipped.`,
      `${nothingToDo} If notes seem to be missing, export the cue again.`,
    ),
  'midi-header-repeated': () =>
    words(
      'A second MIDI file begins inside this one; its notes are read as well.',
      'If the cue was never meant to hold two pieces, export it again.',
    ),
  'midi-no-tracks': () =>
    words(
      'The file holds no tracks, so it plays nothing.',
      'Check that the tracks were selected for the export, then export the cue again.',
    ),
  'chunk-unknown': ({ id, length }) =>
    words(
      `The file holds a block "${printable(id)}" of ${plural(length, 'byte')} that is not music; it was skipped.`,
      nothingToDo,
    ),
  'chunk-cut': ({ id, promised, present }) =>
    words(
      `The file ends early: the block "${printable(id)}" should hold ${plural(promised, 'byte')} and only ${formatCount(present)} are there.`,
      `Copy the file again from its source, or export the cue again.`,
    ),
  'tracks-beyond-header': ({ promised, present }) =>
    words(
      `The header promises ${plural(promised, 'track')} and the file holds ${formatCount(present)}; all of them are read.`,
      `${nothingToDo} The further tracks count like the others.`,
    ),
  'tracks-missing': ({ promised, present }) =>
    words(
      `The header promises ${plural(promised, 'track')} and the file holds ${formatCount(present)}. What the missing ones play is unknown, so everything they could reach counts as needed.`,
      'Copy the file again from its source, or export the cue again.',
    ),
  'track-truncated': () =>
    words(`The track breaks off before its end. ${unknownFromHere}`, exportAgain),
  'track-data-byte': ({ value }) =>
    words(
      `The track cannot be read further: ${hexByte(value)} stands where a value from 0 to 127 belongs. ${unknownFromHere}`,
      exportAgain,
    ),
  'track-status': ({ status }) =>
    words(
      `The track cannot be read further: no event can begin with ${hexByte(status)}. ${unknownFromHere}`,
      exportAgain,
    ),
  'track-quantity': () =>
    words(
      `The track cannot be read further: a time or a length is longer than a MIDI file allows. ${unknownFromHere}`,
      exportAgain,
    ),
  'track-no-end': () =>
    words(
      'The track has no end mark. All of its events were read.',
      'If the end of the cue seems to be missing, export it again.',
    ),
  'track-after-end': ({ bytes }) =>
    words(
      `${plural(bytes, 'byte')} stand${bytes === 1 ? 's' : ''} behind the end mark of the track and ${bytes === 1 ? 'was' : 'were'} not read, as other programs do.`,
      'If notes seem to be missing, export the cue again.',
    ),
  'running-status-after-meta': ({ times }) =>
    words(
      `${plural(times, 'event')} after a text or a system message leave${times === 1 ? 's' : ''} out what kind of event ${times === 1 ? 'it is' : 'they are'}; the kind before was carried on, which is what such files mean.`,
      nothingToDo,
    ),
  'meta-length': ({ type, length, expected }) =>
    words(
      `${metaNames[type] ?? `A text or setting of type ${hexByte(type)}`} is ${plural(length, 'byte')} long instead of ${formatCount(expected)}; ${
        length < expected ? 'it was skipped' : 'what is too much was skipped'
      }.`,
      'If bars, times or ports look wrong in the report, export the cue again.',
    ),
  'sysex-escape': ({ times }) =>
    words(
      `The file holds ${plural(times, 'raw message')} that go${times === 1 ? 'es' : ''} straight to a device; whole notes and controllers in ${times === 1 ? 'it' : 'them'} are counted, the rest is not.`,
      'Export the cue without raw messages if you can.',
    ),
  'tempo-zero': () =>
    words(
      'A tempo of no length was skipped; the tempo before goes on.',
      'If times in the report look wrong, check the tempo track at this place.',
    ),
  'meter-odd': ({ beats, power }) =>
    words(
      `A meter that cannot be (${formatCount(beats)} beats of 1/2^${formatCount(power)} notes) was skipped; the meter before goes on.`,
      'If bar numbers in the report look wrong, check the meter at this place.',
    ),
  'port-odd': ({ port }) =>
    words(
      `A change to port ${formatCount(port + 1)} was skipped, as there are only 128; the track stays on its port.`,
      'If the part then counts for the wrong instrument, export the cue again.',
    ),
  'midi-header-cut': ({ length }) =>
    words(
      `A header breaks off after ${plural(length, 'byte')} of 6.`,
      'Copy the file again from its source, or export the cue again.',
    ),
};
