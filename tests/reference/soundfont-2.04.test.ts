import { describe, expect, it, test } from 'vitest';
import {
  addressExamples,
  coarseStepPoints,
  generators,
  illegalInPresets,
  rangeBytes,
  rangeOrder,
  sampleModes,
  terminalGenerator,
  unusedGenerators,
} from '../../reference/soundfont-2.04-generators.ts';
import {
  hydraLists,
  listSizes,
  loopLimits,
  percussionBank,
  sampleSizes,
  sampleTypes,
  sm24Sizes,
  stubSample,
  unpitched,
} from '../../reference/soundfont-2.04.ts';

describe('the hydra', () => {
  it('has nine lists in the order of sections 7.2 to 7.10', () => {
    expect(hydraLists.map((list) => list.section)).toEqual(
      [2, 3, 4, 5, 6, 7, 8, 9, 10].map((part) => `7.${part}`),
    );
    expect(hydraLists.map((list) => list.id).join(' ')).toBe(
      'phdr pbag pmod pgen inst ibag imod igen shdr',
    );
  });

  test.each(hydraLists)('$id: the fields fill the record', ({ fields, recordBytes }) => {
    expect(fields.reduce((sum, field) => sum + field.bytes, 0)).toBe(recordBytes);
    expect(new Set(fields.map((field) => field.name)).size).toBe(fields.length);
  });

  it('names terminal records where records have a 20-byte name, and only there', () => {
    for (const list of hydraLists) {
      const named = list.fields[0]?.bytes === 20;
      expect(list.terminalName !== null).toBe(named);
    }
    expect(hydraLists.map((list) => list.terminalName).filter((name) => name !== null)).toEqual([
      'EOP',
      'EOI',
      'EOS',
    ]);
  });

  it('asks for at least two records of presets and of instruments', () => {
    const two = hydraLists.filter((list) => list.minimumRecords === 2).map((list) => list.id);
    expect(two).toEqual(['phdr', 'inst']);
  });

  test.each(listSizes)('$from.$index sizes $sizes in whole records', (rule) => {
    const from = hydraLists.find((list) => list.id === rule.from);
    const sized = hydraLists.find((list) => list.id === rule.sizes);
    expect(from?.fields.map((field) => field.name)).toContain(rule.index);
    expect([rule.bytesPerIndex, rule.bytesMore]).toEqual([sized?.recordBytes, sized?.recordBytes]);
  });

  it('sizes every list but the three that carry names', () => {
    expect(listSizes.map((rule) => rule.sizes).sort()).toEqual(
      hydraLists
        .filter((list) => list.terminalName === null)
        .map((list) => list.id)
        .sort(),
    );
  });
});

describe('samples', () => {
  it('types have one of four low bits, and bit 15 for ROM', () => {
    const { RomMonoSample, RomRightSample, RomLeftSample, RomLinkedSample, ...ram } = sampleTypes;
    expect(Object.values(ram)).toEqual([1, 2, 4, 8]);
    expect([RomMonoSample, RomRightSample, RomLeftSample, RomLinkedSample]).toEqual(
      Object.values(ram).map((type) => type | 0x8000),
    );
  });

  it('the shortest sample keeps every limit, and one point less of anything breaks one', () => {
    const broken = (sample: Record<keyof typeof stubSample, number>) =>
      loopLimits.filter(
        ({ lesser, greater, margin }) => sample[lesser] >= sample[greater] - margin,
      );
    expect(broken(stubSample)).toEqual([]);
    expect(stubSample.dwEnd - stubSample.dwStart).toBe(sampleSizes.minimumLength);
    expect(stubSample.dwEndloop - stubSample.dwStartloop).toBe(sampleSizes.minimumLoop);
    for (const shorter of [
      { ...stubSample, dwEnd: 47 },
      { ...stubSample, dwEndloop: 39 },
      { ...stubSample, dwStartloop: 7 },
    ]) {
      expect(broken(shorter)).toHaveLength(1);
    }
  });

  it('the margins say the same as the sizes', () => {
    const { minimumLength, minimumLoop, pointsAroundLoop } = sampleSizes;
    expect(loopLimits.map((limit) => limit.margin + 1)).toEqual([
      pointsAroundLoop,
      minimumLoop,
      pointsAroundLoop,
    ]);
    expect(minimumLoop + 2 * pointsAroundLoop).toBe(minimumLength);
  });

  test.each(sm24Sizes)('$smplBytes bytes of smpl go with $sm24Bytes of sm24', (row) => {
    const half = row.smplBytes / 2;
    expect(row.sm24Bytes).toBe(half % 2 === 0 ? half : half + 1);
  });

  it('a stub with its guard points is one of the sm24 rows', () => {
    const bytes = 2 * (sampleSizes.minimumLength + sampleSizes.guardPoints);
    expect(sm24Sizes.map((row) => row.smplBytes)).toContain(bytes);
  });

  it('special values lie outside what MIDI can say, their stand-ins inside', () => {
    expect(percussionBank).toBe(127 + 1);
    expect(unpitched.stored).toBeGreaterThan(127);
    expect(unpitched.key).toBe(60);
  });
});

describe('generators', () => {
  it('ascend by number, with no name twice', () => {
    const numbers = generators.map((row) => row.number);
    expect(numbers).toEqual([...new Set(numbers)].sort((a, b) => a - b));
    expect(new Set(generators.map((row) => row.name)).size).toBe(generators.length);
  });

  it('section 8.5 and the plus signs of section 8.1.3 name the same ones', () => {
    const plus = generators.filter((row) => row.instrumentOnly).map((row) => row.number);
    expect(plus).toEqual(illegalInPresets);
  });

  it('sample and substitution generators are the ones presets may not have (8.1.1)', () => {
    for (const row of generators) {
      expect(row.instrumentOnly).toBe(row.kind === 'sample' || row.kind === 'substitution');
    }
  });

  it('eight address offsets, two ranges, two indices, two substitutions (8.1.1)', () => {
    const count = (kind: string) => generators.filter((row) => row.kind === kind).length;
    const offsets = generators.filter((row) => row.name.endsWith('Offset'));
    expect(offsets).toHaveLength(8);
    expect([count('range'), count('index'), count('substitution')]).toEqual([2, 2, 2]);
    expect(count('sample')).toBe(8 + 3);
  });

  it('none is one of the unused numbers', () => {
    expect(generators.filter((row) => unusedGenerators.includes(row.number))).toEqual([]);
    expect(Math.max(...generators.map((row) => row.number), ...unusedGenerators)).toBe(60);
  });

  it('zones begin with ranges and end with an index', () => {
    const kind = (number: number) => generators.find((row) => row.number === number)?.kind;
    expect(rangeOrder.map(kind)).toEqual(['range', 'range']);
    expect(Object.values(terminalGenerator).map(kind)).toEqual(['index', 'index']);
    expect(terminalGenerator.preset).toBeLessThan(terminalGenerator.instrument);
    expect([rangeBytes.lowest, rangeBytes.highest]).toEqual([0, 1]);
  });

  it('all four values of the two loop bits are there', () => {
    expect(sampleModes.map((mode) => mode.value)).toEqual([0, 1, 2, 3]);
    expect(sampleModes[2].loops).toBe(sampleModes[0].loops);
  });

  test.each(addressExamples)('$field $header + $fine + $coarse steps is $result', (row) => {
    expect(row.header + row.fine + row.coarse * coarseStepPoints).toBe(row.result);
  });
});
