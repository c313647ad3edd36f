import type {
  Bank,
  BankInstrument,
  BankPreset,
  BankSample,
  Generator,
  Modulator,
} from './soundfont-bank.ts';

/**
 * The bytes of a SoundFont 2.04 file: `RIFF sfbk` with the lists INFO, sdta and pdta in that order.
 * Sections named here are those of the SoundFont Technical Specification 2.04; this is section 4.1.
 */
export const writeSoundFont = (bank: Bank): Uint8Array => {
  const presetZones = flatten(bank.presets, instrumentOperator);
  const instrumentZones = flatten(bank.instruments, sampleOperator);
  const placed = place(bank.samples);
  return form('RIFF', 'sfbk', [
    form('LIST', 'INFO', [
      chunk(
        'ifil',
        table([[2, 4]], 4, (view, at, [major, minor]) => {
          view.setUint16(at, major!, true);
          view.setUint16(at + 2, minor!, true);
        }),
      ),
      chunk('isng', text(bank.engine)),
      chunk('INAM', text(bank.name)),
      chunk('ICMT', text(bank.comment)),
    ]),
    form('LIST', 'sdta', [chunk('smpl', placed.points)]),
    form('LIST', 'pdta', [
      chunk('phdr', presetHeaders(bank.presets, presetZones.firstBags)),
      ...zoneChunks('p', presetZones),
      chunk('inst', instrumentHeaders(bank.instruments, instrumentZones.firstBags)),
      ...zoneChunks('i', instrumentZones),
      chunk('shdr', sampleHeaders(bank.samples, placed.starts)),
    ]),
  ]);
};

const instrumentOperator = 41;
const sampleOperator = 53;

/** Zones as the file holds them: bags that point into one run of generators and one of modulators. */
interface FlatZones {
  readonly firstBags: readonly number[];
  readonly bags: readonly (readonly [generator: number, modulator: number])[];
  readonly generators: readonly Generator[];
  readonly modulators: readonly Modulator[];
}

/** Terminal records included: one more bag, one more zero generator and modulator (section 7). */
const flatten = (owners: readonly BankInstrument[], targetOperator: number): FlatZones => {
  const firstBags: number[] = [];
  const bags: [number, number][] = [];
  const generators: Generator[] = [];
  const modulators: Modulator[] = [];
  for (const owner of owners) {
    firstBags.push(bags.length);
    for (const zone of owner.zones) {
      bags.push([generators.length, modulators.length]);
      generators.push(...zone.generators);
      if (zone.target !== undefined) generators.push([targetOperator, zone.target]);
      modulators.push(...(zone.modulators ?? []));
    }
  }
  firstBags.push(bags.length);
  bags.push([generators.length, modulators.length]);
  generators.push([0, 0]);
  modulators.push({ source: 0, destination: 0, amount: 0 });
  return { firstBags, bags, generators, modulators };
};

const zoneChunks = (level: 'p' | 'i', zones: FlatZones): readonly Uint8Array[] => [
  chunk(
    `${level}bag`,
    table(zones.bags, 4, (view, at, [generator, modulator]) => {
      view.setUint16(at, generator, true);
      view.setUint16(at + 2, modulator, true);
    }),
  ),
  chunk(
    `${level}mod`,
    table(zones.modulators, 10, (view, at, modulator) => {
      view.setUint16(at, modulator.source, true);
      view.setUint16(at + 2, modulator.destination, true);
      view.setInt16(at + 4, modulator.amount, true);
    }),
  ),
  chunk(
    `${level}gen`,
    table(zones.generators, 4, (view, at, [operator, amount]) => {
      view.setUint16(at, operator, true);
      view.setUint16(at + 2, amount & 0xffff, true);
    }),
  ),
];

const presetHeaders = (presets: readonly BankPreset[], bags: readonly number[]): Uint8Array => {
  const end = { name: 'EOP', bank: 0, program: 0 };
  return table([...presets, end], 38, (view, at, preset, index) => {
    name(view, at, preset.name);
    view.setUint16(at + 20, preset.program, true);
    view.setUint16(at + 22, preset.bank, true);
    view.setUint16(at + 24, bags[index]!, true);
  });
};

const instrumentHeaders = (list: readonly BankInstrument[], bags: readonly number[]): Uint8Array =>
  table([...list, { name: 'EOI' }], 22, (view, at, instrument, index) => {
    name(view, at, instrument.name);
    view.setUint16(at + 20, bags[index]!, true);
  });

const sampleTypes = { mono: 1, right: 2, left: 4 };

const sampleHeaders = (samples: readonly BankSample[], starts: readonly number[]): Uint8Array =>
  table([...samples, null], 46, (view, at, sample, index) => {
    name(view, at, sample?.name ?? 'EOS');
    if (sample === null) return;
    const start = starts[index]!;
    view.setUint32(at + 20, start, true);
    view.setUint32(at + 24, start + sample.points.length, true);
    view.setUint32(at + 28, start + sample.loop[0], true);
    view.setUint32(at + 32, start + sample.loop[1], true);
    view.setUint32(at + 36, sample.rate, true);
    view.setUint8(at + 40, sample.key);
    view.setInt8(at + 41, sample.cents);
    view.setUint16(at + 42, sample.partner, true);
    view.setUint16(at + 44, sampleTypes[sample.side], true);
  });

/** Zero points after each sample (section 6.1). */
const guard = 46;

const place = (samples: readonly BankSample[]): { points: Uint8Array; starts: number[] } => {
  const starts: number[] = [];
  let total = 0;
  for (const { points } of samples) {
    starts.push(total);
    total += points.length + guard;
  }
  const bytes = new Uint8Array(total * 2);
  const view = new DataView(bytes.buffer);
  samples.forEach(({ points }, index) => {
    const start = starts[index]!;
    for (let at = 0; at < points.length; at++) view.setInt16((start + at) * 2, points[at]!, true);
  });
  return { points: bytes, starts };
};

const table = <Row>(
  rows: readonly Row[],
  size: number,
  fill: (view: DataView, at: number, row: Row, index: number) => void,
): Uint8Array => {
  const bytes = new Uint8Array(rows.length * size);
  const view = new DataView(bytes.buffer);
  rows.forEach((row, index) => fill(view, index * size, row, index));
  return bytes;
};

const ascii = (view: DataView, at: number, letters: string): void => {
  for (let index = 0; index < letters.length; index++) {
    view.setUint8(at + index, letters.charCodeAt(index));
  }
};

/** 20 bytes, the last one always zero. */
const name = (view: DataView, at: number, letters: string): void =>
  ascii(view, at, letters.slice(0, 19));

/** Zero-terminated and of even length (section 5). */
const text = (letters: string): Uint8Array => {
  const bytes = new Uint8Array(letters.length + 2 - (letters.length % 2));
  ascii(new DataView(bytes.buffer), 0, letters);
  return bytes;
};

const chunk = (id: string, body: Uint8Array): Uint8Array => {
  const bytes = new Uint8Array(8 + body.length + (body.length % 2));
  const view = new DataView(bytes.buffer);
  ascii(view, 0, id);
  view.setUint32(4, body.length, true);
  bytes.set(body, 8);
  return bytes;
};

const form = (id: 'RIFF' | 'LIST', type: string, chunks: readonly Uint8Array[]): Uint8Array => {
  const body = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 4));
  ascii(new DataView(body.buffer), 0, type);
  let at = 4;
  for (const bytes of chunks) {
    body.set(bytes, at);
    at += bytes.length;
  }
  return chunk(id, body);
};
