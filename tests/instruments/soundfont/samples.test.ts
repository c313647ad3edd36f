import { describe, expect, test } from 'vitest';
import { sampleTypes, sm24Sizes } from '../../../reference/soundfont-2.04.ts';
import type { BankSpec } from './bank-bytes.ts';
import { ascii } from './bank-bytes.ts';
import { readBank } from './reading.ts';

/** Section numbers are those of SoundFont 2.04. */
const samplesOf = async (spec: BankSpec) => (await readBank(spec)).samples;
const irom = [['irom', ascii('1MGM\0\0')]] as const;

describe('names (7.10)', () => {
  test.each<[string, string | Uint8Array, string]>([
    ['text', 'Oboe C5', '0:Oboe C5'],
    ['twenty characters without a NUL', 'Contrabassoon low A1', '0:Contrabassoon low A1'],
    ['what stands after a NUL', 'Oboe\0old name', '0:Oboe'],
    ['nothing', '', '0'],
    ['spaces stay', 'Oboe ', '0:Oboe '],
    ['ISO 8859-1', Uint8Array.of(0x46, 0xfc, 0x72, 0x80), '0:F\u00fcr\u0080'],
    ['control characters stay', 'a\x1b[2J\n', '0:a\x1b[2J\n'],
  ])('%s', async (_what, name, expected) => {
    expect((await samplesOf({ samples: [{ name }] }))[0]!.name).toBe(expected);
  });

  test('carry the index of the header; orphans are samples too', async () => {
    const samples = await samplesOf({ samples: [{ name: 'a' }, { name: 'b' }, { name: 'a' }] });
    expect(samples.map(({ name }) => name)).toEqual(['0:a', '1:b', '2:a']);
  });
});

describe('size and presence', () => {
  const rom = 0x8000;
  test.each<[string, BankSpec, frames: number, present: boolean, code: string | null]>([
    [
      '7.10 end is the first point that is not its own',
      { samples: [{ start: 100, end: 350 }] },
      250,
      true,
      null,
    ],
    ['7.10 up to the last point', { samples: [{ start: 0, end: 1000 }] }, 1000, true, null],
    ['7.10 beyond the last point', { samples: [{ end: 1001 }] }, 1001, false, 'bank-sample-broken'],
    [
      '7.10 far beyond',
      { samples: [{ end: 0xffff_ffff }] },
      0xffff_ffff,
      false,
      'bank-sample-broken',
    ],
    ['7.10 nothing in it', { samples: [{ start: 5, end: 5 }] }, 0, false, 'bank-sample-broken'],
    ['7.10 end before start', { samples: [{ start: 9, end: 5 }] }, 0, false, 'bank-sample-broken'],
    ['6 no smpl chunk', { points: null }, 100, false, 'bank-sample-broken'],
    ['7.10 in ROM', { samples: [{ type: rom | 1 }], info: irom }, 100, false, 'bank-sample-rom'],
    [
      '7.10 in ROM, with addresses of the ROM',
      { samples: [{ start: 9, end: 2e6, type: rom | 1 }], info: irom },
      1_999_991,
      false,
      'bank-sample-rom',
    ],
    ['7.10 an unknown type', { samples: [{ type: 16 }] }, 100, true, null],
  ])('%s', async (_rule, spec, frames, present, code) => {
    const bank = await readBank({ ...spec, samples: [{ name: 'S', ...spec.samples?.[0] }] });
    expect(bank.samples).toEqual([
      { name: '0:S', frames, channels: 1, width: 2, rate: 44_100, present, partner: null },
    ]);
    expect(bank.findings.map((one) => [one.code, one.args])).toEqual(
      code === null ? [] : [[code, { sample: '0:S' }]],
    );
  });

  test('a finding names the byte of the header', async () => {
    const bank = await readBank({ samples: [{}, { name: 'S', end: 0 }] });
    const shdr = bank.findings[0]!.at!.byte!;
    const again = await readBank({ samples: [{ name: 'S', end: 0 }, {}] });
    expect(shdr - again.findings[0]!.at!.byte!).toBe(46);
  });

  test('5.4 ROM samples need irom, and in it a name', async () => {
    const samples = [{ type: rom | 1 }];
    const missing = { finding: { code: 'bank-chunk-missing', args: { chunk: 'irom' } } };
    await expect(readBank({ samples })).rejects.toMatchObject(missing);
    const info = [['irom', new Uint8Array(0)]] as const;
    await expect(readBank({ samples, info })).rejects.toMatchObject(missing);
  });
});

describe('24 bits (6.2 of 2.04)', () => {
  test.each<[string, BankSpec, width: number, reason: string | null]>([
    ['no sm24', { version: [2, 4] }, 2, null],
    ...sm24Sizes.map(
      ({ smplBytes, sm24Bytes }) =>
        [
          `${String(smplBytes)} bytes of smpl`,
          { version: [2, 4], points: smplBytes / 2, sm24: sm24Bytes },
          3,
          null,
        ] as [string, BankSpec, number, string | null],
    ),
    ['not rounded up', { version: [2, 4], points: 1001, sm24: 1001 }, 2, 'size'],
    ['too short', { version: [2, 4], points: 1000, sm24: 998 }, 2, 'size'],
    ['too long', { version: [2, 4], points: 1000, sm24: 1002 }, 2, 'size'],
    ['a later minor version', { version: [2, 5], points: 1000, sm24: 1000 }, 3, null],
    ['before 2.04', { version: [2, 1], points: 1000, sm24: 1000 }, 2, 'version'],
    ['without smpl', { version: [2, 4], points: null, sm24: 1000 }, 2, 'no-smpl'],
  ])('%s', async (_rule, spec, width, reason) => {
    const bank = await readBank(spec);
    expect(bank.samples[0]!.width).toBe(width);
    const ignored = bank.findings.filter(({ code }) => code === 'bank-sm24-ignored');
    expect(ignored.map(({ args }) => args)).toEqual(reason === null ? [] : [{ reason }]);
  });
});

describe('stereo partners (7.10)', () => {
  const {
    monoSample: mono,
    rightSample: right,
    leftSample: left,
    linkedSample: linked,
  } = sampleTypes;
  const { RomRightSample: romRight, RomLeftSample: romLeft } = sampleTypes;
  type Header = NonNullable<BankSpec['samples']>[number];
  test.each<[string, readonly Header[], partners: readonly (number | null)[], broken: number]>([
    [
      'left and right that name each other',
      [
        { type: left, link: 1 },
        { type: right, link: 0 },
      ],
      [1, 0],
      0,
    ],
    ['right before left', [{}, { type: right, link: 2 }, { type: left, link: 1 }], [null, 2, 1], 0],
    ['all links at 0', [{ type: left }, { type: right }, { type: left }], [null, null, null], 3],
    [
      'a link that is not returned',
      [
        { type: left, link: 1 },
        { type: right, link: 2 },
        { type: left, link: 0 },
      ],
      [null, null, null],
      3,
    ],
    [
      'two of one side',
      [
        { type: left, link: 1 },
        { type: left, link: 0 },
      ],
      [null, null],
      2,
    ],
    ['itself', [{ type: left, link: 0 }], [null], 1],
    ['beyond the last sample', [{ type: right, link: 7 }], [null], 1],
    [
      'a mono sample',
      [
        { type: left, link: 1 },
        { type: mono, link: 0 },
      ],
      [null, null],
      1,
    ],
    [
      'mono links are not links',
      [
        { type: mono, link: 1 },
        { type: mono, link: 0 },
      ],
      [null, null],
      0,
    ],
    [
      'linked samples are not defined',
      [
        { type: linked, link: 1 },
        { type: linked, link: 0 },
      ],
      [null, null],
      0,
    ],
    [
      'a partner that is not there',
      [
        { type: left, link: 1 },
        { type: right, link: 0, end: 0 },
      ],
      [null, null],
      0,
    ],
    [
      'a pair in ROM',
      [
        { type: romLeft, link: 1 },
        { type: romRight, link: 0 },
      ],
      [null, null],
      0,
    ],
    [
      'half in ROM',
      [
        { type: left, link: 1 },
        { type: romRight, link: 0 },
      ],
      [null, null],
      0,
    ],
  ])('%s', async (_what, samples, partners, broken) => {
    const bank = await readBank({ samples, info: irom });
    expect(bank.samples.map(({ partner }) => partner)).toEqual(partners);
    const links = bank.findings.filter(({ code }) => code === 'bank-links-broken');
    expect(links.map(({ severity, args }) => [severity, args])).toEqual(
      broken === 0 ? [] : [['note', { links: broken }]],
    );
  });
});
