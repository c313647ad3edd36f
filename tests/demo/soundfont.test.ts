/** The demo bank, read raw. Rules: SoundFont Technical Specification 2.04, sections as named. */
import { expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { writeSoundFont } from '../../src/demo/soundfont-writer.ts';
import { amount, leaves, readBank } from './read-bank.ts';

const file = demoFiles().find(({ path }) => path.endsWith('.sf2'))!.bytes;
const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
const bank = readBank(file);

test('sizes fit: RIFF fills the file, the lists follow in order (section 4.1)', () => {
  expect(view.getUint32(4, true)).toBe(file.length - 8);
  const { lists, chunks } = leaves(file);
  expect(lists).toEqual(['INFO', 'sdta', 'pdta']);
  expect([...chunks.keys()]).toEqual([
    ...['ifil', 'isng', 'INAM', 'ICMT', 'smpl'],
    ...['phdr', 'pbag', 'pmod', 'pgen', 'inst', 'ibag', 'imod', 'igen', 'shdr'],
  ]);
  for (const { size } of chunks.values()) expect(size % 2).toBe(0);
});

test('the bank says version 2.04 and its texts end in zero (section 5)', () => {
  const { chunks } = leaves(file);
  const version = chunks.get('ifil')!;
  expect([
    version.size,
    view.getUint16(version.at, true),
    view.getUint16(version.at + 2, true),
  ]).toEqual([4, 2, 4]);
  for (const id of ['isng', 'INAM', 'ICMT']) {
    const { at, size } = chunks.get(id)!;
    expect(file[at]).toBeGreaterThan(0x20);
    expect(file[at + size - 1]).toBe(0);
  }
});

test.each([
  ['phdr', 38, 24, 'pbag'],
  ['inst', 22, 20, 'ibag'],
] as const)('%s counts agree with its zones (sections 7.2 to 7.9)', (id, record, bagAt, bags) => {
  const { chunks } = leaves(file);
  const level = bags.charAt(0);
  const records = (name: string, size: number): number => {
    const chunk = chunks.get(name)!;
    expect(chunk.size % size, name).toBe(0);
    return chunk.size / size;
  };
  const word = (name: string, size: number, index: number, offset: number): number =>
    view.getUint16(chunks.get(name)!.at + index * size + offset, true);
  const headers = records(id, record);
  const bagCount = records(bags, 4);
  let before = 0;
  for (let index = 0; index < headers; index++) {
    const bag = word(id, record, index, bagAt);
    if (index > 0) expect(bag, `header ${index}`).toBeGreaterThan(before);
    before = bag;
  }
  expect(before).toBe(bagCount - 1);
  expect(word(bags, 4, bagCount - 1, 0)).toBe(records(`${level}gen`, 4) - 1);
  expect(word(bags, 4, bagCount - 1, 2)).toBe(records(`${level}mod`, 10) - 1);
});

test('the terminal records carry their names', () => {
  const { chunks } = leaves(file);
  const last = (id: string, record: number): string => {
    const { at, size } = chunks.get(id)!;
    return String.fromCharCode(...file.subarray(at + size - record, at + size - record + 4));
  };
  expect([last('phdr', 38), last('inst', 22), last('shdr', 46)]).toEqual([
    'EOP\0',
    'EOI\0',
    'EOS\0',
  ]);
});

test('zones: ranges first and low before high, targets last and in range, one global zone at most', () => {
  for (const [owners, target, targets] of [
    [bank.presets, 41, bank.instruments.length],
    [bank.instruments, 53, bank.samples.length],
  ] as const) {
    for (const { name, zones } of owners) {
      zones.forEach(({ generators }, index) => {
        const operators = generators.map(([operator]) => operator);
        expect(new Set(operators).size, name).toBe(operators.length);
        if (operators.includes(43)) expect(operators.indexOf(43), name).toBe(0);
        if (operators.includes(44)) expect(operators.indexOf(44), name).toBeLessThan(2);
        for (const [operator, range] of generators) {
          if (operator === 43 || operator === 44)
            expect(range & 0xff).toBeLessThanOrEqual(range >> 8);
        }
        const own = generators.findIndex(([operator]) => operator === target);
        if (own === -1) expect(index, name).toBe(0);
        else {
          expect(own, name).toBe(generators.length - 1);
          expect(generators[own]![1], name).toBeLessThan(targets);
        }
      });
    }
  }
});

test('samples: 46 zeros after each, lengths and loops as section 7.10 asks', () => {
  for (const { name, start, end, loopStart, loopEnd } of bank.samples) {
    expect(end - start, name).toBeGreaterThanOrEqual(48);
    expect(loopStart, name).toBeGreaterThan(start + 7);
    expect(loopEnd, name).toBeGreaterThan(loopStart + 31);
    expect(loopEnd, name).toBeLessThan(end - 7);
    const guard = bank.points.subarray(end, end + 46);
    expect([guard.length, guard.every((point) => point === 0)], name).toEqual([46, true]);
  }
});

test('looped samples: eight points around both loop points are the same (section 6.3)', () => {
  let looped = 0;
  for (const { name, zones } of bank.instruments) {
    const global = zones[0]!;
    if (amount(global, 54) !== 1) continue;
    for (const zone of zones.slice(1)) {
      const sample = bank.samples[amount(zone, 53)!]!;
      const around = (point: number): number[] => [...bank.points.subarray(point - 4, point + 4)];
      expect(around(sample.loopStart), `${name} ${sample.name}`).toEqual(around(sample.loopEnd));
      looped++;
    }
  }
  expect(looped).toBeGreaterThan(300);
});

test('stereo pairs point at each other and lie in the same instrument on the same keys', () => {
  const lefts = bank.samples.flatMap(({ type }, index) => (type === 4 ? [index] : []));
  expect(lefts.length).toBeGreaterThan(200);
  for (const left of lefts) {
    const right = bank.samples[left]!.link;
    expect(bank.samples[right]).toMatchObject({
      type: 2,
      link: left,
      key: bank.samples[left]!.key,
    });
    const ranges = [left, right].map((sample) =>
      bank.instruments.flatMap(({ name, zones }) =>
        zones
          .filter((zone) => amount(zone, 53) === sample)
          .map((zone) => [name, amount(zone, 43), amount(zone, 44)]),
      ),
    );
    expect(ranges[0]).toEqual(ranges[1]);
    expect(ranges[0]).not.toEqual([]);
  }
  expect(bank.samples.filter(({ type }) => type === 2)).toHaveLength(lefts.length);
  for (const { type, link } of bank.samples) if (type === 1) expect(link).toBe(0);
});

test('no sample is silent, cut or named twice, and every one is used', () => {
  const used = new Set(
    bank.instruments.flatMap(({ zones }) => zones.map((zone) => amount(zone, 53))),
  );
  bank.samples.forEach(({ name, start, end }, index) => {
    const points = bank.points.subarray(start, end);
    const peak = points.reduce((most, point) => Math.max(most, Math.abs(point)), 0);
    const early = points.subarray(0, 441).reduce((sum, point) => sum + Math.abs(point), 0) / 441;
    expect(peak, name).toBe(26_200);
    expect(early, name).toBeGreaterThan(1000);
    expect(used.has(index), name).toBe(true);
  });
  expect(new Set(bank.samples.map(({ name }) => name)).size).toBe(bank.samples.length);
});

test('the presets: a variation bank, two kits, shared instruments, a split, layers', () => {
  const names = bank.presets.map(
    ({ bank: number, program, name }) => `${number}:${program} ${name}`,
  );
  expect(names).toEqual([
    ...['0:0 Piano', '0:8 Celesta', '0:21 Squeezebox', '0:43 Cb Arco', '0:44 Strings Trem'],
    ...['0:45 Strings Pizz', '0:46 Harp', '0:47 Timpani', '0:48 Strings Sus', '0:49 Strings Stac'],
    ...['0:52 Choir Ah Pad', '0:60 Horns a4', '0:68 Oboe', '0:73 Flute', '1:48 Strings Sus Sord'],
    ...['128:0 Kit Stage', '128:8 Kit Room'],
  ]);
  const players = bank.instruments.map(
    (_, index) =>
      bank.presets.filter(({ zones }) => zones.some((zone) => amount(zone, 41) === index)).length,
  );
  expect(players.every((count) => count > 0)).toBe(true);
  expect(players.filter((count) => count > 1).length).toBeGreaterThan(2);
  const layers = bank.instruments.map(
    ({ zones }) => new Set(zones.slice(1).map((zone) => amount(zone, 44))).size,
  );
  expect(Math.min(...layers)).toBe(2);
  expect(layers).toContain(4);
});

test('the writer packs amounts below zero and modulators by the record', () => {
  const bytes = writeSoundFont({
    ...{ name: 'odd', engine: 'four', comment: '', samples: [], presets: [] },
    instruments: [
      {
        name: 'a name of more than nineteen letters',
        zones: [
          {
            generators: [[48, -40]],
            modulators: [{ source: 0x81, destination: 8, amount: -2400 }],
          },
        ],
      },
    ],
  });
  const { chunks } = leaves(bytes);
  const at = (id: string): number => chunks.get(id)!.at;
  const words = (id: string, count: number): number[] =>
    Array.from({ length: count }, (_, index) =>
      new DataView(bytes.buffer).getInt16(at(id) + index * 2, true),
    );
  expect(words('igen', 4)).toEqual([48, -40, 0, 0]);
  expect(words('imod', 10)).toEqual([0x81, 8, -2400, 0, 0, 0, 0, 0, 0, 0]);
  expect(words('ibag', 4)).toEqual([0, 0, 1, 1]);
  expect(readBank(bytes).instruments[0]!.name).toBe('a name of more than');
  expect(chunks.get('INAM')!.size).toBe(4);
  expect(chunks.get('isng')!.size).toBe(6);
});
