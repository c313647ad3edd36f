/**
 * A tiny SoundFont made in code whose presets can be told apart by counting.
 *
 * A synthesiser's log says how many voices a note started, not of which preset. Here preset number
 * n starts 4n voices for every note, one more from key 64 up, and two more from velocity 64 up, so the
 * count alone names the preset, the half of the keyboard and the layer. Every one of the three has a
 * sample of its own, so that poisoning one sample is heard only where that preset and layer play.
 *
 * Layout of the file: SoundFont 2.01, sections 4 to 7 (no 24-bit part, no modulators).
 */

/** One preset: its MIDI bank and program, and the number its voices count. */
export interface CountingPreset {
  readonly bank: number;
  readonly program: number;
  readonly count: number;
}

/** Bank 128 is the bank of drum kits (SoundFont 2.01, section 7.2). */
export const countingPresets: readonly CountingPreset[] = [
  { bank: 0, program: 0, count: 1 },
  { bank: 0, program: 4, count: 2 },
  { bank: 0, program: 5, count: 3 },
  { bank: 0, program: 40, count: 4 },
  { bank: 1, program: 4, count: 5 },
  { bank: 8, program: 4, count: 6 },
  { bank: 121, program: 4, count: 7 },
  { bank: 127, program: 8, count: 8 },
  { bank: 128, program: 0, count: 9 },
  { bank: 128, program: 8, count: 10 },
  { bank: 128, program: 25, count: 11 },
];

/** Voices that one note of this bank starts. */
const countingVoices = (count: number, key: number, velocity: number): number =>
  4 * count + (key >= 64 ? 1 : 0) + (velocity >= 64 ? 2 : 0);

const samplePoints = 800;
const guardPoints = 46;

const name20 = (name: string): Buffer => {
  const bytes = Buffer.alloc(20);
  bytes.write(name, 'latin1');
  return bytes;
};

const words = (...values: readonly number[]): Buffer => {
  const bytes = Buffer.alloc(values.length * 2);
  values.forEach((value, at) => bytes.writeUInt16LE(value & 0xffff, at * 2));
  return bytes;
};

const longs = (...values: readonly number[]): Buffer => {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, at) => bytes.writeUInt32LE(value, at * 4));
  return bytes;
};

const chunk = (id: string, ...parts: readonly Buffer[]): Buffer => {
  const body = Buffer.concat(parts);
  const padding = Buffer.alloc(body.length % 2);
  return Buffer.concat([Buffer.from(id, 'latin1'), longs(body.length), body, padding]);
};

const list = (type: string, ...parts: readonly Buffer[]): Buffer =>
  chunk('LIST', Buffer.from(type, 'latin1'), ...parts);

/** A steady tone with a pitch of its own, looped over its whole middle. */
const tone = (number: number): Buffer => {
  const points = Array.from({ length: samplePoints }, (_, at) =>
    Math.round(6000 * Math.sin((2 * Math.PI * at * (number + 3)) / samplePoints)),
  );
  return words(...points, ...Array<number>(guardPoints).fill(0));
};

/** Generator operators of SoundFont 2.01, section 8.1.2. */
const generator = { instrument: 41, keyRange: 43, velRange: 44, sampleID: 53, sampleModes: 54 };

const range = (low: number, high: number): number => low | (high << 8);

interface Lists {
  readonly igen: Buffer[];
  readonly ibag: Buffer[];
  readonly inst: Buffer[];
}

/** Adds one zone with a sample and an optional range. */
const addZone = (lists: Lists, sample: number, ranged?: readonly [number, number]): void => {
  lists.ibag.push(words(lists.igen.length, 0));
  if (ranged !== undefined) lists.igen.push(words(...ranged));
  lists.igen.push(words(generator.sampleModes, 1), words(generator.sampleID, sample));
};

const addInstrument = (lists: Lists, index: number, count: number): void => {
  lists.inst.push(name20(`Counting ${String(count)}`), words(lists.ibag.length));
  for (let voice = 0; voice < 4 * count; voice += 1) addZone(lists, 3 * index);
  addZone(lists, 3 * index + 1, [generator.keyRange, range(64, 127)]);
  addZone(lists, 3 * index + 2, [generator.velRange, range(64, 127)]);
  addZone(lists, 3 * index + 2, [generator.velRange, range(64, 127)]);
};

/** The bytes of the counting bank; always the same. */
export const countingBank = (): Uint8Array => {
  const lists: Lists = { igen: [], ibag: [], inst: [] };
  const samples = countingPresets.flatMap((_, index) => [3 * index, 3 * index + 1, 3 * index + 2]);
  countingPresets.forEach(({ count }, index) => addInstrument(lists, index, count));
  const presets = countingPresets.flatMap(({ bank, program, count }, index) => [
    name20(`Counting ${String(count)}`),
    words(program, bank, index),
    longs(0, 0, 0),
  ]);
  const headers = samples.flatMap((sample) => {
    const start = sample * (samplePoints + guardPoints);
    return [
      name20(`Tone ${String(sample)}`),
      longs(start, start + samplePoints, start + 8, start + samplePoints - 8, 22_050),
      Buffer.from([60, 0]),
      words(0, 1),
    ];
  });
  const sfbk = [
    Buffer.from('sfbk', 'latin1'),
    list(
      'INFO',
      chunk('ifil', words(2, 1)),
      chunk('isng', Buffer.from('Counting\0\0', 'latin1')),
      chunk('INAM', Buffer.from('Counting bank\0', 'latin1')),
    ),
    list('sdta', chunk('smpl', ...samples.map(tone))),
    list(
      'pdta',
      chunk('phdr', ...presets, name20('EOP'), words(0, 0, countingPresets.length), longs(0, 0, 0)),
      chunk(
        'pbag',
        ...countingPresets.map((_, at) => words(at, 0)),
        words(countingPresets.length, 0),
      ),
      chunk('pmod', Buffer.alloc(10)),
      chunk(
        'pgen',
        ...countingPresets.map((_, at) => words(generator.instrument, at)),
        words(0, 0),
      ),
      chunk('inst', ...lists.inst, name20('EOI'), words(lists.ibag.length)),
      chunk('ibag', ...lists.ibag, words(lists.igen.length, 0)),
      chunk('imod', Buffer.alloc(10)),
      chunk('igen', ...lists.igen, words(0, 0)),
      chunk('shdr', ...headers, name20('EOS'), Buffer.alloc(26)),
    ),
  ];
  return chunk('RIFF', ...sfbk);
};

const counted = (key: number, velocity: number, voices: number): number =>
  countingPresets.findIndex(({ count }) => countingVoices(count, key, velocity) === voices);

/** The preset that a note was played with, `bank:program`, by the number of its voices. */
export const countedPreset = (key: number, velocity: number, voices: number): string => {
  const found = countingPresets[counted(key, velocity, voices)];
  return found === undefined
    ? `${String(voices)} voices`
    : `${String(found.bank)}:${String(found.program)}`;
};

/**
 * Header indices of the samples that a note with so many voices played.
 *
 * @throws {Error} when no preset starts so many voices at once
 */
export const countedSamples = (
  key: number,
  velocity: number,
  voices: number,
): readonly number[] => {
  const preset = counted(key, velocity, voices);
  if (preset < 0) throw new Error(`no preset starts ${String(voices)} voices`);
  return [0, ...(key >= 64 ? [1] : []), ...(velocity >= 64 ? [2] : [])].map((n) => 3 * preset + n);
};
