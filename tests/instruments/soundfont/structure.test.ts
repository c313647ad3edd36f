import { describe, expect, test } from 'vitest';
import { hydraLists } from '../../../reference/soundfont-2.04.ts';
import {
  ascii,
  assemble,
  bankBytes,
  bankParts,
  chunk,
  instrument,
  join,
  list,
  pan,
  patched,
  riff,
  sample,
  u16,
  u32,
  withChunk,
  type BankParts,
} from './bank-bytes.ts';
import { readBank, refusal } from './reading.ts';

/** Section numbers are those of SoundFont 2.04. */
const parts = bankParts();
const info = list('INFO', parts.INFO);
const sdta = list('sdta', parts.sdta);
const pdta = list('pdta', parts.pdta);

/** Where a chunk's header, and its data, begin. */
const headerAt = (bytes: Uint8Array, id: string): number =>
  Buffer.from(bytes).indexOf(Buffer.from(id, 'latin1'));
const dataAt = (bytes: Uint8Array, id: string): number => headerAt(bytes, id) + 8;

const without = (bank: BankParts, id: string): Uint8Array =>
  assemble({
    INFO: bank.INFO.filter(([name]) => name !== id),
    sdta: bank.sdta.filter(([name]) => name !== id),
    pdta: bank.pdta.filter(([name]) => name !== id),
  });

const edited = (id: string, change: (data: Uint8Array) => Uint8Array, bank = parts): Uint8Array =>
  assemble(withChunk(bank, id, change));

test('the plain bank of these tests is sound', async () => {
  expect((await readBank(assemble(parts))).findings).toEqual([]);
});

describe('chunks (4.1 to 5.1)', () => {
  test.each<[string, Uint8Array, string, object]>([
    ['an empty file', new Uint8Array(0), 'bank-not-a-soundfont', { begins: '' }],
    ['a MIDI file', ascii('MThd\0\0\0\x06\0\0'), 'bank-not-a-soundfont', { begins: 'MThd' }],
    [
      '4.1 another form',
      chunk('RIFF', ascii('WAVE')),
      'bank-not-a-soundfont',
      { begins: 'RIFF WAVE' },
    ],
    ['4.1 nothing in it', riff(), 'bank-chunk-missing', { chunk: 'INFO' }],
    ['4.1 no INFO', riff(sdta, pdta), 'bank-chunk-missing', { chunk: 'INFO' }],
    ['4.1 no sdta', riff(info, pdta), 'bank-chunk-missing', { chunk: 'sdta' }],
    ['4.1 no pdta', riff(info, sdta), 'bank-chunk-missing', { chunk: 'pdta' }],
    ['3.1 pdta before sdta', riff(info, pdta, sdta), 'bank-chunk-order', { chunk: 'sdta' }],
    ['3.1 pdta twice', riff(info, sdta, pdta, pdta), 'bank-chunk-order', { chunk: 'pdta' }],
    ['5.1 no ifil', without(parts, 'ifil'), 'bank-chunk-missing', { chunk: 'ifil' }],
    [
      '5.1 ifil of two bytes',
      edited('ifil', () => u16(2)),
      'bank-record-size',
      { chunk: 'ifil', bytes: 2, record: 4 },
    ],
    ['5.1 version 1', bankBytes({ version: [1, 0] }), 'bank-version', { major: 1, minor: 0 }],
    ['5.1 version 3', bankBytes({ version: [3, 1] }), 'bank-version', { major: 3, minor: 1 }],
    [
      '7.1 lists out of order',
      assemble({ ...parts, pdta: [parts.pdta[1]!, parts.pdta[0]!, ...parts.pdta.slice(2)] }),
      'bank-chunk-order',
      { chunk: 'phdr' },
    ],
  ])('%s', async (_rule, bytes, code, args) => {
    const found = await refusal(readBank(bytes));
    expect(found).toMatchObject({ severity: 'error', code, args, file: 'bank.sf2' });
  });

  test('5.1 any minor version of 2 is read', async () => {
    expect((await readBank({ version: [2, 99] })).zones).toHaveLength(1);
  });
});

describe.each(hydraLists)('$section $id', ({ id, recordBytes: record }) => {
  const bytes = parts.pdta.find(([name]) => name === id)![1].length;

  test('is required', async () => {
    const found = await refusal(readBank(without(parts, id)));
    expect(found).toMatchObject({ code: 'bank-chunk-missing', args: { chunk: id } });
  });

  test('has whole records', async () => {
    const bank = edited(id, (data) => join(data, u16(0)));
    const found = await refusal(readBank(bank));
    expect(found).toMatchObject({
      code: 'bank-record-size',
      args: { chunk: id, bytes: bytes + 2, record },
      at: { byte: headerAt(bank, id) },
    });
  });

  test('has a terminal record', async () => {
    const found = await refusal(readBank(edited(id, () => new Uint8Array(0))));
    expect(found).toMatchObject({
      code: 'bank-record-size',
      args: { chunk: id, bytes: 0, record },
    });
  });

  test('has no more records than a 16-bit index reaches', async () => {
    const bank = edited(id, () => new Uint8Array(65_537 * record));
    const found = await refusal(readBank(bank));
    expect(found).toMatchObject({
      code: 'bank-too-large',
      args: { chunk: id, count: 65_537 },
    });
  });
});

test('7.2 a bank has a preset', async () => {
  const found = await refusal(readBank({ presets: [] }));
  expect(found).toMatchObject({ code: 'bank-no-presets', severity: 'error' });
});

test('7.6 a bank has an instrument', async () => {
  const found = await refusal(readBank({ presets: [{ zones: [] }], instruments: [] }));
  expect(found).toMatchObject({ code: 'bank-no-instruments', severity: 'error' });
});

describe('indices', () => {
  const two = bankParts({ presets: [{ zones: [[instrument(0)]] }, { zones: [[instrument(0)]] }] });

  test.each<[string, Uint8Array, chunk: string, record: number, value: number]>([
    ['7.2 the last one matches pbag', edited('phdr', (d) => patched(d, 62, 2)), 'phdr', 1, 2],
    ['7.2 they ascend', edited('phdr', (d) => patched(d, 24, 2), two), 'phdr', 1, 1],
    ['7.3 the last one matches pgen', edited('pbag', (d) => patched(d, 4, 0)), 'pbag', 1, 0],
    ['7.3 they ascend', edited('pbag', (d) => patched(d, 0, 2), two), 'pbag', 1, 1],
    ['7.3 the last one matches pmod', edited('pbag', (d) => patched(d, 6, 1)), 'pbag', 1, 1],
    ['7.4 a modulator too many', edited('pmod', (d) => join(d, d)), 'pbag', 1, 0],
    ['7.6 the last one matches ibag', edited('inst', (d) => patched(d, 42, 0)), 'inst', 1, 0],
    ['7.7 the last one matches igen', edited('ibag', (d) => patched(d, 4, 2)), 'ibag', 1, 2],
    ['7.7 the last one matches imod', edited('ibag', (d) => patched(d, 6, 9)), 'ibag', 1, 9],
    ['7.8 a modulator too many', edited('imod', (d) => join(d, d)), 'ibag', 1, 0],
    [
      '7.5 an instrument exists',
      bankBytes({ presets: [{ zones: [[pan(0), instrument(1)]] }] }),
      'pgen',
      1,
      1,
    ],
    ['7.9 a sample exists', bankBytes({ instruments: [{ zones: [[sample(1)]] }] }), 'igen', 0, 1],
    [
      '7.9 a sample of an instrument that nothing uses exists',
      bankBytes({ instruments: [{ zones: [[sample(0)]] }, { zones: [[sample(7)]] }] }),
      'igen',
      1,
      7,
    ],
  ])('%s', async (_rule, bytes, id, record, value) => {
    const size = hydraLists.find((list) => list.id === id)!.recordBytes;
    expect(await refusal(readBank(bytes))).toMatchObject({
      code: 'bank-index',
      args: { chunk: id, record, value },
      at: { byte: dataAt(bytes, id) + record * size },
    });
  });

  test('are unsigned: 40 000 generators (7.7; a signed 16-bit number ends at 32 767)', async () => {
    const zones = Array.from({ length: 20_000 }, () => [pan(0), sample(0)]);
    const bank = await readBank({ instruments: [{ zones }] });
    expect(bank.zones).toHaveLength(20_000);
    expect(bank.zones.at(-1)!.id).toBe(19_999);
  });

  test('may leave records before the first owner unused', async () => {
    const spare = { presets: [{ zones: [[instrument(0)], [instrument(0)]] }] };
    const bytes = assemble(withChunk(bankParts(spare), 'phdr', (d) => patched(d, 24, 1)));
    expect((await readBank(bytes)).presetZones).toEqual([1]);
  });
});

describe('a file that was cut', () => {
  const whole = assemble(parts);

  test('anywhere is refused (3.3)', async () => {
    for (let length = 12; length < whole.length; length++) {
      const found = await refusal(readBank(whole.subarray(0, length)));
      expect(found).toMatchObject({
        code: 'bank-truncated',
        args: { chunk: 'RIFF', promised: whole.length - 8, present: length - 8 },
      });
    }
  });

  test.each(['INFO', 'sdta', 'pdta'])('inside %s, with the outer size put right', async (type) => {
    const chunks = { INFO: info, sdta, pdta };
    const order = ['INFO', 'sdta', 'pdta'] as const;
    const kept = order.slice(0, order.indexOf(type as 'INFO') + 1).map((name) => chunks[name]);
    const bytes = riff(...kept.slice(0, -1), kept.at(-1)!.subarray(0, -2));
    expect(await refusal(readBank(bytes))).toMatchObject({
      code: 'bank-truncated',
      args: { chunk: 'LIST' },
      at: { byte: 12 + join(...kept.slice(0, -1)).length },
    });
  });

  test.each([5, 400])('a chunk of %i bytes may not reach out of its list', async (promised) => {
    const long = chunk('LIST', join(ascii('INFO'), ascii('ifil'), u32(promised), u16(2, 1)));
    expect(await refusal(readBank(riff(long, sdta, pdta)))).toMatchObject({
      code: 'bank-truncated',
      args: { chunk: 'ifil', promised, present: 4 },
      at: { byte: 24 },
    });
  });

  test('bytes after the end are passed over with a note', async () => {
    const bank = await readBank(join(whole, new Uint8Array(5)));
    expect(bank.findings).toMatchObject([
      {
        code: 'bank-bytes-after-end',
        severity: 'note',
        args: { bytes: 5 },
        at: { byte: whole.length },
      },
    ]);
  });
});

describe('unknown chunks (10.2)', () => {
  const extra = ['xtra', ascii('odd')] as const;

  test('are ignored in INFO', async () => {
    const bank = await readBank({ info: [['INAM', ascii('odd')], extra, ['ICMT', u16(0)]] });
    expect(bank.findings).toEqual([]);
    expect(bank.zones).toHaveLength(1);
  });

  test.each([
    ['at the top', riff(info, chunk(...extra), sdta, pdta)],
    ['after the end', riff(info, sdta, pdta, chunk(...extra))],
    ['as a list', riff(info, sdta, list('xtra', []), pdta)],
    ['beside the sound', assemble({ ...parts, sdta: [extra, ...parts.sdta] })],
    [
      'between the lists',
      assemble({ ...parts, pdta: [parts.pdta[0]!, extra, ...parts.pdta.slice(1)] }),
    ],
  ])('are a finding %s, and what follows is read', async (_where, bytes) => {
    const bank = await readBank(bytes);
    expect(bank.findings).toMatchObject([
      { code: 'bank-chunk-unknown', severity: 'warning', args: { chunk: 'xtra' } },
    ]);
    expect(bank.zones).toHaveLength(1);
  });

  test('stray bytes at the end of a list are one too', async () => {
    const loose = chunk('LIST', join(pdta.subarray(8), ascii('phdr')));
    const bank = await readBank(riff(info, sdta, loose));
    expect(bank.findings).toMatchObject([{ code: 'bank-chunk-unknown', args: { chunk: 'phdr' } }]);
  });

  test('by the thousand are refused, not read one by one', async () => {
    const empties = Array.from({ length: 5000 }, () => chunk('none', new Uint8Array(0)));
    expect(await refusal(readBank(riff(info, ...empties, sdta, pdta)))).toMatchObject({
      code: 'bank-too-large',
      args: { chunk: 'RIFF' },
    });
  });
});

test('3.1 data of odd length is followed by a pad byte', async () => {
  const odd = await readBank({
    info: [['ICMT', ascii('123')]],
    samples: [{ end: 50 }],
    points: 50,
  });
  expect(odd.samples[0]!.present).toBe(true);
  const sound = [['smpl', new Uint8Array(101)]] as const;
  expect((await readBank(assemble({ ...parts, sdta: sound }))).zones).toHaveLength(1);
});
