import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readSoundFont } from '../../../src/instruments/soundfont/read.ts';
import { patchValue } from '../../../src/instruments/program.ts';
import type { Files } from '../../../src/terms/files.ts';
import {
  ascii,
  bankBytes,
  bankParts,
  assemble,
  instrument,
  keys,
  sample,
  velocities,
  type BankSpec,
} from './bank-bytes.ts';
import { digest, readBank, refusal, startLines } from './reading.ts';

/** Two presets and a kit over three instruments; instrument 1 and sample 3 are used by none. */
const small: BankSpec = {
  presets: [
    { name: 'Kit', bank: 128, program: 0, zones: [[instrument(2)]] },
    { name: 'Strings', bank: 0, program: 48, zones: [[keys(0, 90)], [instrument(0)]] },
    { name: 'Piano', bank: 0, program: 0, zones: [[instrument(0)], [instrument(2)]] },
  ],
  instruments: [
    {
      zones: [
        [velocities(0, 63), sample(0)],
        [velocities(64, 127), sample(1)],
        [keys(0, 20), velocities(0, 63), sample(2)],
      ],
    },
    { zones: [[sample(0)]] },
    { zones: [[keys(1, 2)], [keys(36, 36), sample(4)]] },
  ],
  samples: [
    { name: 'soft' },
    { name: 'loud L', type: 4, link: 2 },
    { name: 'loud R', type: 2, link: 1 },
    { name: 'spare' },
    { name: 'drum' },
  ],
};

/** What tables say of a zone, and banks do not. */
const plainZone = { key: null, microphone: null };

describe('a whole bank', () => {
  test('is one instrument: every zone and sample, presets as articulations', async () => {
    const bank = await readBank(small);
    expect(bank).toMatchObject({ id: 'bank', source: 'bank.sf2', playedAs: 'bank', findings: [] });
    expect(bank.zones).toEqual([
      { id: 0, samples: [0], group: 0, ...plainZone },
      { id: 1, samples: [1], group: 0, ...plainZone },
      { id: 2, samples: [2], group: 0, ...plainZone },
      { id: 3, samples: [0], group: 1, ...plainZone },
      { id: 5, samples: [4], group: 2, ...plainZone },
    ]);
    expect(bank.samples.map(({ name }) => name)).toEqual([
      '0:soft',
      '1:loud L',
      '2:loud R',
      '3:spare',
      '4:drum',
    ]);
    expect(bank.articulations).toEqual([
      {
        name: '0:0 Piano',
        switch: 'bank 0 program 0',
        layers: [
          { velocity: [0, 63], controllers: [], zones: [0, 2] },
          { velocity: [0, 127], controllers: [], zones: [4] },
          { velocity: [64, 127], controllers: [], zones: [1] },
        ],
      },
      {
        name: '0:48 Strings',
        switch: 'bank 0 program 48',
        layers: [
          { velocity: [0, 63], controllers: [], zones: [0, 2] },
          { velocity: [64, 127], controllers: [], zones: [1] },
        ],
      },
      {
        name: '128:0 Kit',
        switch: 'bank 128 program 0',
        layers: [{ velocity: [0, 127], controllers: [], zones: [4] }],
      },
    ]);
  });

  test('has a program whose gates follow the patch of each channel', async () => {
    const { program, presetZones } = await readBank(small);
    expect(program).toMatchObject({
      scope: 'channel',
      retriggers: true,
      signals: [{ kind: 'patch' }],
      zones: 5,
      articulations: 3,
    });
    expect(program.gates).toHaveLength(3);
    for (const gate of program.gates) expect(gate).toMatchObject([{ signal: 0 }]);
    expect(program.gates[1]![0]!.tests[0]).toEqual({
      lo: patchValue(0, 48),
      hi: patchValue(127, 48),
      doubt: 0,
    });
    // Preset zones are numbered over the file, where the kit comes first; global ones count too.
    expect(presetZones).toEqual([3, 3, 3, 4, 2, 2, 2, 2, 2, 0]);
    expect(program.starts.map(({ articulation, gate }) => [articulation, gate])).toEqual([
      ...Array.from({ length: 4 }, () => [0, 0]),
      ...Array.from({ length: 5 }, () => [1, 1]),
      [2, 2],
    ]);
    expect(program.starts[0]).toEqual({
      zone: 0,
      articulation: 0,
      hold: 0,
      event: 'note-on',
      keys: [0, 127],
      velocities: [0, 63],
      gate: 0,
      fades: [],
      doubt: 0,
      releaseSeconds: Infinity,
    });
  });

  test('layers are those of the plain reading', async () => {
    const { articulations } = await readBank({
      instruments: [{ zones: [[velocities(0, 63)], [sample(0)]] }],
    });
    expect(articulations[0]!.layers).toEqual([{ velocity: [0, 63], controllers: [], zones: [0] }]);
  });
});

describe('presets (7.2)', () => {
  test('with no zones are ignored: the patch falls back', async () => {
    const bank = await readBank({
      presets: [
        { name: 'None', program: 5, zones: [] },
        { name: 'Piano', zones: [[instrument(0)]] },
      ],
    });
    expect(bank.findings).toMatchObject([
      { code: 'bank-preset-empty', severity: 'warning', args: { preset: '0:5 None' } },
    ]);
    expect(bank.articulations.map(({ name }) => name)).toEqual(['0:0 Piano']);
    const five = patchValue(0, 5);
    expect(bank.program.gates[0]![0]!.tests.some(({ lo, hi }) => lo <= five && five <= hi)).toBe(
      true,
    );
  });

  test('whose zones lead nowhere stay: the patch is silent', async () => {
    const bank = await readBank({
      presets: [
        { name: 'Mute', program: 5, zones: [[keys(1, 2)]] },
        { name: 'Piano', zones: [[instrument(0)]] },
      ],
    });
    expect(bank.articulations).toMatchObject([
      { name: '0:0 Piano' },
      { name: '0:5 Mute', layers: [] },
    ]);
    const five = patchValue(0, 5);
    expect(bank.program.gates[0]![0]!.tests.some(({ lo, hi }) => lo <= five && five <= hi)).toBe(
      false,
    );
  });

  test('with the same numbers: the first in the file that has zones, the others in doubt', async () => {
    const bank = await readBank({
      presets: [
        { name: 'Empty', zones: [] },
        { name: 'First', zones: [[keys(1, 2), instrument(0)]] },
        { name: 'Second', zones: [[keys(3, 4), instrument(0)]] },
      ],
    });
    expect(bank.findings).toMatchObject([
      { code: 'bank-preset-empty', args: { preset: '0:0 Empty' } },
      { code: 'bank-preset-repeated', severity: 'warning', args: { preset: '0:0 Second' } },
    ]);
    expect(startLines(bank)).toEqual([
      'zone 0 keys 1-2 velocities 0-127 through 0',
      'zone 0 keys 3-4 velocities 0-127 through 1 engine',
    ]);
  });

  test('none that can be played', async () => {
    const bank = await readBank({ presets: [{ name: '', zones: [] }] });
    expect(bank.findings).toMatchObject([
      { code: 'bank-preset-empty', args: { preset: '0:0' } },
      { code: 'bank-no-presets', severity: 'warning' },
    ]);
    expect(bank.program.starts).toEqual([]);
    expect(bank.zones).toHaveLength(1);
  });

  test('and instruments without zones (7.6)', async () => {
    const bank = await readBank({ instruments: [{ zones: [] }, { zones: [[sample(0)]] }] });
    expect(bank.program.starts).toEqual([]);
    expect(bank.zones).toEqual([{ id: 0, samples: [0], group: 1, ...plainZone }]);
  });
});

describe('one preset', () => {
  test('has the zones of its instruments, their samples, and no gate', async () => {
    const one = await readBank(small, { bank: 0, program: 48 });
    expect(one).toMatchObject({ id: 'bank#0:48', source: 'bank.sf2#0:48', playedAs: 'single' });
    expect(one.zones.map(({ id }) => id)).toEqual([0, 1, 2]);
    expect(one.samples).toMatchObject([
      { name: '0:soft', partner: null },
      { name: '1:loud L', partner: 2 },
      { name: '2:loud R', partner: 1 },
    ]);
    expect(one.articulations).toMatchObject([{ name: '0:48 Strings', switch: null }]);
    expect(one.program).toMatchObject({
      scope: 'copy',
      retriggers: true,
      signals: [],
      gates: [[]],
      zones: 3,
      articulations: 1,
    });
    expect(startLines(one)).toEqual([
      'zone 0 keys 0-90 velocities 0-63 through 2',
      'zone 0 keys 0-127 velocities 0-63 through 2 engine',
      'zone 1 keys 0-90 velocities 64-127 through 2',
      'zone 1 keys 0-127 velocities 64-127 through 2 engine',
      'zone 2 keys 0-20 velocities 0-63 through 2',
    ]);
  });

  test('numbers its samples and zones anew, and keeps their names', async () => {
    const kit = await readBank(small, { bank: 128, program: 0 });
    expect(kit.zones).toEqual([{ id: 5, samples: [0], group: 2, ...plainZone }]);
    expect(kit.samples).toMatchObject([{ name: '4:drum' }]);
    expect(kit.program.starts).toMatchObject([{ zone: 0, articulation: 0, gate: 0 }]);
  });

  test('a stereo half whose other half it does not use has no partner', async () => {
    const spec = {
      ...small,
      instruments: [{ zones: [[sample(1)]] }, ...small.instruments!.slice(1)],
    };
    const one = await readBank(spec, { bank: 0, program: 48 });
    expect(one.samples).toMatchObject([{ name: '1:loud L', partner: null }]);
    expect(one.findings).toEqual([]);
  });

  test('hears only of its own samples', async () => {
    const spec = { ...small, samples: small.samples!.map((one) => ({ ...one, end: 0 })) };
    const one = await readBank(spec, { bank: 128, program: 0 });
    expect(one.findings).toMatchObject([
      { code: 'bank-sample-broken', args: { sample: '4:drum' } },
    ]);
  });

  test('that can be chosen by no message can still be named', async () => {
    const bank = { presets: [{ bank: 20_000, program: 200, zones: [[instrument(0)]] }] };
    const one = await readBank(bank, { bank: 20_000, program: 200 });
    expect(one.program.starts).toHaveLength(1);
  });

  test.each([
    ['the program in other banks first', 8, 48, ['0:48 Strings', '0:0 Piano', '128:0 Kit']],
    ['then the same bank', 0, 40, ['0:48 Strings', '0:0 Piano', '128:0 Kit']],
  ])('that is missing is refused, and near ones named: %s', async (_what, bank, program, near) => {
    const found = await refusal(readBank(small, { bank, program }));
    expect(found).toMatchObject({
      code: 'preset-missing',
      args: { preset: `${String(bank)}:${String(program)}`, near },
    });
  });

  test('without zones is missing', async () => {
    const found = await refusal(readBank({ presets: [{ zones: [] }] }, { bank: 0, program: 0 }));
    expect(found).toMatchObject({ code: 'preset-missing', args: { near: [] } });
  });
});

describe('what is read', () => {
  const big: BankSpec = { ...small, points: 500_000, sm24: 500_000, version: [2, 4] };
  const listBytes = bankParts(big).pdta.reduce((sum, [, data]) => sum + data.length, 0);

  test('the lists and at most 64 KiB beside them', async () => {
    const files = new MemoryFiles({ 'big.sf2': bankBytes(big) });
    await readSoundFont(files, 'big.sf2', null, digest);
    expect(files.bytesRead('big.sf2')).toBeGreaterThanOrEqual(listBytes);
    expect(files.bytesRead('big.sf2')).toBeLessThanOrEqual(listBytes + 65_536);
  });

  test('also when INFO is large and odd chunks abound', async () => {
    const info = [
      ['ICMT', new Uint8Array(65_536)],
      ...Array.from({ length: 1000 }, () => ['none', new Uint8Array(2)] as const),
    ] as const;
    const sdta = [
      ...bankParts(big).sdta,
      ...Array.from({ length: 1000 }, () => ['none', ascii('no')] as const),
    ];
    const bytes = assemble({ ...bankParts({ ...big, info }), sdta });
    const files = new MemoryFiles({ 'big.sf2': bytes });
    const bank = await readSoundFont(files, 'big.sf2', null, digest);
    expect(bank.samples[0]!.width).toBe(3);
    expect(files.bytesRead('big.sf2')).toBeLessThanOrEqual(listBytes + 65_536);
  });

  test('never the sound: every byte of it may change', async () => {
    const loud = bankParts(small).sdta.map(
      ([id, data]) => [id, data.map((_, i) => i & 255)] as const,
    );
    expect(await readBank(assemble({ ...bankParts(small), sdta: loud }))).toEqual(
      await readBank(small),
    );
  });

  test('the digest covers the lists, the version and the size of the sound', async () => {
    const sums = await Promise.all(
      [
        small,
        { ...small, version: [2, 0] as const },
        { ...small, points: 1001 },
        { ...small, sm24: 1000 },
        { ...small, sm24: 1002 },
        { ...small, presets: small.presets!.map((one) => ({ ...one, name: 'x' })) },
      ].map(async (spec) => (await readBank(spec)).sha256),
    );
    expect(new Set(sums).size).toBe(sums.length);
    expect((await readBank({ ...small, info: [['ICMT', ascii('hello')]] })).sha256).toBe(sums[0]);
    expect((await readBank(small, { bank: 0, program: 0 })).sha256).toBe(sums[0]);
  });
});

describe('the file', () => {
  test.each([
    ['keys', 'keys'],
    ['banks/keys.v2.sf2', 'keys.v2'],
    ['banks.d/keys', 'keys'],
    ['.sf2', '.sf2'],
  ])('%s is called %s', async (path, id) => {
    const files = new MemoryFiles({ [path]: bankBytes(small) });
    expect(await readSoundFont(files, path, null, digest)).toMatchObject({ id, source: path });
  });

  test('that is missing, or a folder', async () => {
    const files = new MemoryFiles({ 'banks/keys.sf2': bankBytes(small) });
    const reading = (path: string) => refusal(readSoundFont(files, path, null, digest));
    expect(await reading('keys.sf2')).toMatchObject({ code: 'path-missing', file: 'keys.sf2' });
    expect(await reading('banks')).toMatchObject({ code: 'path-not-a-file', file: 'banks' });
  });

  test('that shrinks while it is read', async () => {
    const whole = new MemoryFiles({ 'keys.sf2': bankBytes(small) });
    const shrinking: Files = {
      info: (path) => whole.info(path),
      open: (path, use) => whole.open(path, use),
      list: (path) => whole.list(path),
      read: async (path, offset, length) =>
        (await whole.read(path, offset, length)).subarray(0, 100),
    };
    const found = await refusal(readSoundFont(shrinking, 'keys.sf2', null, digest));
    expect(found).toMatchObject({ code: 'path-changed-while-read', file: 'keys.sf2' });
  });
});
