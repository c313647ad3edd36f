/**
 * SoundFont Technical Specification 2.04, section 8: the generators this project deals with.
 *
 * Looked up in the two stored copies named in `soundfont-2.04.ts`. Numbers and names: section 8.1.2.
 * Kinds: section 8.1.1. `instrumentOnly`: the plus signs of the summary in section 8.1.3.
 * {@link illegalInPresets} is typed from section 8.5, on its own, so that the two check each other.
 *
 * Section 8.1.2 says of keyRange and velRange that the low byte holds the highest value. The struct
 * of section 7.5 ({@link rangeBytes}) and the banks in use put the lowest first; the struct holds.
 */

/** Section 8.1.1: the five kinds. Only value generators may be the destination of a modulator. */
export type GeneratorKind = 'index' | 'range' | 'substitution' | 'sample' | 'value';

/** A generator of section 8.1.2. */
export interface Generator {
  readonly number: number;
  readonly name: string;
  readonly kind: GeneratorKind;
  /** True when it is only valid at the instrument level (section 8.1.3). */
  readonly instrumentOnly: boolean;
}

const row = (
  number: number,
  name: string,
  kind: GeneratorKind,
  where: '+' | '' = '',
): Generator => ({ number, name, kind, instrumentOnly: where === '+' });

/** Ascending by number. `instrument` and `sampleID` are not in the summary: each fits one level. */
export const generators: readonly Generator[] = [
  row(0, 'startAddrsOffset', 'sample', '+'),
  row(1, 'endAddrsOffset', 'sample', '+'),
  row(2, 'startloopAddrsOffset', 'sample', '+'),
  row(3, 'endloopAddrsOffset', 'sample', '+'),
  row(4, 'startAddrsCoarseOffset', 'sample', '+'),
  row(12, 'endAddrsCoarseOffset', 'sample', '+'),
  row(17, 'pan', 'value'),
  row(38, 'releaseVolEnv', 'value'),
  row(41, 'instrument', 'index'),
  row(43, 'keyRange', 'range'),
  row(44, 'velRange', 'range'),
  row(45, 'startloopAddrsCoarseOffset', 'sample', '+'),
  row(46, 'keynum', 'substitution', '+'),
  row(47, 'velocity', 'substitution', '+'),
  row(48, 'initialAttenuation', 'value'),
  row(50, 'endloopAddrsCoarseOffset', 'sample', '+'),
  row(51, 'coarseTune', 'value'),
  row(52, 'fineTune', 'value'),
  row(53, 'sampleID', 'index'),
  row(54, 'sampleModes', 'sample', '+'),
  row(56, 'scaleTuning', 'value'),
  row(57, 'exclusiveClass', 'sample', '+'),
  row(58, 'overridingRootKey', 'sample', '+'),
];

/** Section 8.5: not available in presets; ignored there. */
export const illegalInPresets: readonly number[] = [0, 1, 2, 3, 4, 12, 45, 46, 47, 50, 54, 57, 58];

/** Section 8.1.2: unused or reserved numbers, ignored wherever they stand; 60 is endOper. */
export const unusedGenerators: readonly number[] = [14, 18, 19, 20, 42, 49, 55, 59, 60];

/** Sections 7.5 and 7.9: the generator that ends every zone but a global one. */
export const terminalGenerator = { preset: 41, instrument: 53 } as const;

/** Sections 7.5 and 7.9: what a range generator stands behind: keyRange first, then velRange. */
export const rangeOrder: readonly number[] = [43, 44];

/** Section 7.5, rangesType: which byte of the amount is which. */
export const rangeBytes = { lowest: 0, highest: 1 } as const;

/** Section 8.1.2, generator 54: the two low bits. 2 is unused and means no loop. */
export const sampleModes = [
  { value: 0, loops: 'never' },
  { value: 1, loops: 'always' },
  { value: 2, loops: 'never' },
  { value: 3, loops: 'until-release' },
] as const;

/** Section 8.1.2: how many points one step of a coarse address offset stands for. */
export const coarseStepPoints = 32_768;

/** Section 8.1.2, the example given with each address generator. */
export interface AddressExample {
  /** The header field the offsets are added to. */
  readonly field: 'dwStart' | 'dwEnd' | 'dwStartloop' | 'dwEndloop';
  readonly header: number;
  readonly fine: number;
  readonly coarse: number;
  readonly result: number;
}

export const addressExamples: readonly AddressExample[] = [
  { field: 'dwStart', header: 7, fine: 2, coarse: 0, result: 9 },
  { field: 'dwEnd', header: 17, fine: -2, coarse: 0, result: 15 },
  { field: 'dwStartloop', header: 10, fine: -1, coarse: 0, result: 9 },
  { field: 'dwEndloop', header: 15, fine: 2, coarse: 0, result: 17 },
  { field: 'dwStart', header: 5, fine: 3, coarse: 2, result: 65544 },
  // The text of this one says startAddrs where it means endAddrs.
  { field: 'dwEnd', header: 65536, fine: -3, coarse: -1, result: 32765 },
  { field: 'dwStartloop', header: 5, fine: 3, coarse: 2, result: 65544 },
  { field: 'dwEndloop', header: 5, fine: 3, coarse: 2, result: 65544 },
];
