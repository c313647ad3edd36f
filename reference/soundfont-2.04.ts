/**
 * SoundFont Technical Specification 2.04: the nine lists of the hydra, sample types and sizes.
 * Generators are in `soundfont-2.04-generators.ts`.
 *
 * Looked up in two stored copies that agree on everything here: a Markdown transcription of 2.04
 * (found by its text; its repository is not known) and the transcription of 2.01 in
 * gitpan/MIDI-SoundFont (doc/sfspec21.html). Section numbers are those of 2.04. The two versions
 * differ in section 6 only: 2.04 adds 6.2 (sm24), and 6.2 of 2.01 becomes 6.3.
 */

/** A field of a record: its name in the standard's struct and its size. */
export interface HydraField {
  readonly name: string;
  readonly bytes: number;
}

/** One of the nine lists of the pdta chunk. */
export interface HydraList {
  readonly id: string;
  readonly section: string;
  /** Size of a record. A list whose size is not a multiple of it makes the file unsound. */
  readonly recordBytes: number;
  readonly fields: readonly HydraField[];
  /** The name of the terminal record, null where records have none. */
  readonly terminalName: string | null;
  /** The fewest records the list may have, the terminal one included. */
  readonly minimumRecords: number;
}

const fields = (...pairs: readonly (readonly [string, number])[]): readonly HydraField[] =>
  pairs.map(([name, bytes]) => ({ name, bytes }));

const modulator = fields(
  ['sfModSrcOper', 2],
  ['sfModDestOper', 2],
  ['modAmount', 2],
  ['sfModAmtSrcOper', 2],
  ['sfModTransOper', 2],
);
const generator = fields(['sfGenOper', 2], ['genAmount', 2]);

/** Sections 7.1 to 7.10, in the order the file has them. All integers are little-endian. */
export const hydraLists: readonly HydraList[] = [
  {
    id: 'phdr',
    section: '7.2',
    recordBytes: 38,
    fields: fields(
      ['achPresetName', 20],
      ['wPreset', 2],
      ['wBank', 2],
      ['wPresetBagNdx', 2],
      ['dwLibrary', 4],
      ['dwGenre', 4],
      ['dwMorphology', 4],
    ),
    terminalName: 'EOP',
    minimumRecords: 2,
  },
  {
    id: 'pbag',
    section: '7.3',
    recordBytes: 4,
    fields: fields(['wGenNdx', 2], ['wModNdx', 2]),
    terminalName: null,
    minimumRecords: 1,
  },
  {
    id: 'pmod',
    section: '7.4',
    recordBytes: 10,
    fields: modulator,
    terminalName: null,
    minimumRecords: 1,
  },
  {
    id: 'pgen',
    section: '7.5',
    recordBytes: 4,
    fields: generator,
    terminalName: null,
    minimumRecords: 1,
  },
  {
    id: 'inst',
    section: '7.6',
    recordBytes: 22,
    fields: fields(['achInstName', 20], ['wInstBagNdx', 2]),
    terminalName: 'EOI',
    minimumRecords: 2,
  },
  {
    id: 'ibag',
    section: '7.7',
    recordBytes: 4,
    fields: fields(['wInstGenNdx', 2], ['wInstModNdx', 2]),
    terminalName: null,
    minimumRecords: 1,
  },
  {
    id: 'imod',
    section: '7.8',
    recordBytes: 10,
    fields: modulator,
    terminalName: null,
    minimumRecords: 1,
  },
  {
    id: 'igen',
    section: '7.9',
    recordBytes: 4,
    fields: generator,
    terminalName: null,
    minimumRecords: 1,
  },
  {
    id: 'shdr',
    section: '7.10',
    recordBytes: 46,
    fields: fields(
      ['achSampleName', 20],
      ['dwStart', 4],
      ['dwEnd', 4],
      ['dwStartloop', 4],
      ['dwEndloop', 4],
      ['dwSampleRate', 4],
      ['byOriginalPitch', 1],
      ['chPitchCorrection', 1],
      ['wSampleLink', 2],
      ['sfSampleType', 2],
    ),
    terminalName: 'EOS',
    minimumRecords: 1,
  },
];

/**
 * Sections 7.2, 7.3, 7.6, 7.7: the terminal record of one list says how long the next list is. The
 * size in bytes is `index * recordBytes + recordBytes`, the last term for the terminal record.
 */
export const listSizes = [
  { from: 'phdr', index: 'wPresetBagNdx', sizes: 'pbag', bytesPerIndex: 4, bytesMore: 4 },
  { from: 'pbag', index: 'wGenNdx', sizes: 'pgen', bytesPerIndex: 4, bytesMore: 4 },
  { from: 'pbag', index: 'wModNdx', sizes: 'pmod', bytesPerIndex: 10, bytesMore: 10 },
  { from: 'inst', index: 'wInstBagNdx', sizes: 'ibag', bytesPerIndex: 4, bytesMore: 4 },
  { from: 'ibag', index: 'wInstGenNdx', sizes: 'igen', bytesPerIndex: 4, bytesMore: 4 },
  { from: 'ibag', index: 'wInstModNdx', sizes: 'imod', bytesPerIndex: 10, bytesMore: 10 },
] as const;

/** Section 7.2: the wBank value of a General MIDI percussion bank. */
export const percussionBank = 128;

/** Section 7.10, sfSampleType: the eight values. Bit 15 marks a sample in ROM. */
export const sampleTypes = {
  monoSample: 1,
  rightSample: 2,
  leftSample: 4,
  linkedSample: 8,
  RomMonoSample: 32769,
  RomRightSample: 32770,
  RomLeftSample: 32772,
  RomLinkedSample: 32776,
} as const;

/** Sections 6.1 and 7.10: sizes in sample data points. */
export const sampleSizes = {
  /** Section 6.1: zeros that follow every sample; dwEnd is the index of the first. */
  guardPoints: 46,
  minimumLength: 48,
  minimumLoop: 32,
  /** Valid points before the loop starts and after it ends. */
  pointsAroundLoop: 8,
} as const;

/**
 * Section 7.10, the same limits as it puts them: `lesser < greater - margin`. The stub is the
 * shortest sample that keeps all of them (own inference, not in the standard).
 */
export const loopLimits = [
  { lesser: 'dwStart', greater: 'dwStartloop', margin: 7 },
  { lesser: 'dwStartloop', greater: 'dwEndloop', margin: 31 },
  { lesser: 'dwEndloop', greater: 'dwEnd', margin: 7 },
] as const;
export const stubSample = { dwStart: 0, dwStartloop: 8, dwEndloop: 40, dwEnd: 48 } as const;

/** Section 7.10: byOriginalPitch of an unpitched sound, and the key used for it. */
export const unpitched = { stored: 255, key: 60 } as const;

/**
 * Sections 6 and 6.2: sm24 holds one byte for each two of smpl, plus one if that is odd. Any other
 * size, a version below 2.04 or a missing smpl: sm24 is ignored. (Rows worked by hand.)
 */
export const sm24Sizes = [
  { smplBytes: 4, sm24Bytes: 2 },
  { smplBytes: 6, sm24Bytes: 4 },
  { smplBytes: 188, sm24Bytes: 94 },
  { smplBytes: 190, sm24Bytes: 96 },
] as const;
