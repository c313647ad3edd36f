import fc from 'fast-check';
import type { ModelOutlineStyle } from './write-outline.ts';
import type { SfzStyle } from './write-sfz.ts';
import type { SoundFontStyle } from './write-soundfont.ts';
import type { TableStyle } from './write-table.ts';

/** Random ways to write one and the same instrument: none of them may change a plan. */
export const sfzStyle: fc.Arbitrary<SfzStyle> = fc.record({
  groups: fc.boolean(),
  keyNames: fc.boolean(),
  velocityFades: fc.boolean(),
  fadeSteps: fc.constantFrom(0, 1, 20),
  watched: fc.boolean(),
  defaultPath: fc.boolean(),
  octaves: fc.constantFrom(-1, 0, 1),
});

export const tableStyle: fc.Arbitrary<TableStyle> = fc.record({
  keyNames: fc.boolean(),
  size: fc.constantFrom('frames', 'bytes'),
});

export const modelOutlineStyle: fc.Arbitrary<ModelOutlineStyle> = fc.record({
  middleC: fc.constantFrom(3, 4, 5),
  sampled: fc.boolean(),
  conditions: fc.boolean(),
});

export const soundFontStyle: fc.Arbitrary<SoundFontStyle> = fc.record({
  split: fc.option(fc.integer({ min: 58, max: 67 })),
  globals: fc.boolean(),
});

/** Room around what is played, often none. */
export const headroom = fc.oneof(
  { weight: 2, arbitrary: fc.constant({ keys: 0, velocity: 0, controller: 0 }) },
  fc.record({ keys: fc.nat(2), velocity: fc.nat(20), controller: fc.nat(20) }),
);

/** What a template says of an instrument, in whatever format that is. */
export interface Setting {
  readonly loads: string;
  readonly shares: string;
  readonly unloads: string;
  readonly slack: string;
}

export const setting: fc.Arbitrary<Setting> = fc.record({
  loads: fc.constantFrom('whole', 'streamed, head: 9 ms', 'streamed, head: 1 KiB'),
  shares: fc.constantFrom('machine', 'copy'),
  unloads: fc.constantFrom('sample', 'sample', 'layer', 'articulation', 'instrument'),
  slack: fc.constantFrom('0 ms', '20 ms'),
});

/** @param instrument what names the file */
export const templateText = (
  instrument: string,
  { loads, shares, unloads, slack }: Setting,
): string => `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: ${loads}, shares: ${shares}, unloads: ${unloads}, per-zone: 100 B } }
instruments: { one: { ${instrument} } }
routes: [ { track: '*', instrument: one } ]
slack: ${slack}
`;
