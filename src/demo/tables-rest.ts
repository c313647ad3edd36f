import { fades, layers, table, type OrchestraTable, type Row } from './zone-rows.ts';

export const restTables = (): readonly OrchestraTable[] => [
  flutes(),
  oboe(),
  harp(),
  timpani(),
  percussion(),
  choir(),
  pads(),
];

const sound = { rate: '48000', bits: '24', channels: '2' } as const;

const windColumns = [
  ...(['articulation', 'switch', 'keys', 'velocities', 'controllers', 'round-robin'] as const),
  ...(['microphone', 'seconds', 'rate', 'bits', 'channels'] as const),
] as const;

const flutes = (): OrchestraTable => {
  const every = { keys: 'G3..D7 every 3', microphone: 'close|tree|hall', ...sound };
  return table('flutes', windColumns, [
    {
      ...{ articulation: 'sustain', switch: 'C1', controllers: fades(12, 40, 72, 100) },
      ...{ seconds: '7', ...every },
    },
    {
      ...{ articulation: 'staccato', switch: 'C#1', velocities: layers(48, 88) },
      ...{ 'round-robin': '4', seconds: '0.8', ...every },
    },
    {
      ...{ articulation: 'flutter', switch: 'D1', controllers: fades(12, 64) },
      ...{ seconds: '5', ...every },
    },
  ]);
};

/** One articulation and one microphone: rows for the layers, each with the length of its own notes. */
const oboe = (): OrchestraTable =>
  table(
    'oboe',
    ['keys', 'controllers', 'seconds', 'rate', 'bits', 'channels'],
    ['1:0-48', '1:40-84', '1:76-122', '1:118-127'].map((controllers, i) => ({
      ...{ keys: 'A#3..G6 every 2', controllers, seconds: String(8 - i), ...sound },
      rate: '96 kHz',
    })),
  );

const harp = (): OrchestraTable => {
  const every = { keys: 'C1..G7 every 3', microphone: 'close|hall', ...sound };
  return table('harp', windColumns, [
    {
      ...{ articulation: 'pluck', switch: 'C0', velocities: layers(44, 88) },
      ...{ 'round-robin': '3', seconds: '6.5', ...every },
    },
    {
      ...{ articulation: 'bisbigliando', switch: 'D0', controllers: fades(12, 64) },
      ...{ seconds: '8', ...every },
    },
  ]);
};

/**
 * Saved where the comma is the decimal mark, so semicolons divide the cells; and by someone for whom
 * key 60 is C3: the template says so beside the table.
 */
const timpani = (): OrchestraTable =>
  table(
    'timpani',
    ['keys', 'velocities', 'round-robin', 'microphone', 'seconds', 'rate', 'bits', 'channels'],
    [
      {
        ...{ keys: 'C1..A2 every 2', velocities: layers(30, 58, 84, 108), 'round-robin': '3' },
        ...{ microphone: 'close|hall', seconds: '5,5' },
        ...{ rate: '44,1 kHz', bits: '24', channels: '2' },
      },
    ],
    ';',
  );

const kitColumns = [
  ...(['key', 'keys', 'velocities', 'round-robin', 'microphone'] as const),
  ...(['seconds', 'rate', 'bits', 'channels'] as const),
] as const;

/** Pieces of the kit on General MIDI percussion keys, each row with a name of its own in `key`. */
const percussion = (): OrchestraTable => {
  const piece = (key: string, keys: string, seconds: string): Row<(typeof kitColumns)[number]> => ({
    ...{ key, keys, velocities: layers(28, 52, 76, 100), 'round-robin': '4' },
    ...{ microphone: 'close|overhead|hall', seconds, ...sound },
  });
  return table('percussion', kitColumns, [
    piece('bass drum', '35-36', '2.4'),
    piece('stick', '37', '0.7'),
    piece('snare', '38|40', '1.2'),
    piece('low tom', '41|43', '1.8'),
    piece('middle tom', '45|47', '1.6'),
    piece('high tom', '48|50', '1.4'),
    piece('hi-hat', '42|44', '0.8'),
    piece('open hi-hat', '46', '2'),
    piece('crash', '49|57', '5.5'),
    piece('ride', '51|59', '4.5'),
    piece('tambourine', '54', '1'),
    piece('buoy bell', '56', '6'),
    piece('triangle', '81', '4'),
  ]);
};

/** Vowels, switched by controller 32. */
const choir = (): OrchestraTable => {
  const vowel = (articulation: string, values: string): Row<(typeof windColumns)[number]> => ({
    ...{ articulation, switch: `cc 32: ${values}`, keys: 'F2..C6 every 3' },
    ...{ controllers: fades(16, 36, 66, 96), microphone: 'close|tree|hall', seconds: '10' },
    ...sound,
  });
  return table('choir', windColumns, [
    vowel('ah', '0-41'),
    vowel('oo', '42-83'),
    vowel('mm', '84-127'),
  ]);
};

const pads = (): OrchestraTable =>
  table(
    'pads',
    ['keys', 'velocities', 'frames', 'rate', 'bits', 'channels'],
    [{ keys: 'C2..C6 every 3', velocities: layers(80), frames: '1152000', ...sound }],
  );
