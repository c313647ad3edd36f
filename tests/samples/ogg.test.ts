import { describe, expect, it, test } from 'vitest';
import { hex } from '../midi/hex.ts';
import { countReads, headerOf } from './counted.ts';
import { ascii, identification, join, oggPage, zeros, type Vorbis } from './writers.ts';

const header = {
  format: 'ogg-vorbis',
  frames: 5000,
  channels: 1,
  width: 2,
  widthAssumed: true,
  rate: 44100,
  loop: null,
  remarks: [],
};

const first = (vorbis: Vorbis = {}, serial = 7): Uint8Array =>
  oggPage({ data: identification(vorbis), flags: 2, serial });
const page = (granule: number, length = 400, serial = 7): Uint8Array =>
  oggPage({ data: zeros(length), granule, serial });
const last = (granule: number, length = 100, serial = 7): Uint8Array =>
  oggPage({ data: zeros(length), granule, flags: 4, serial });

/** A first page by hand: RFC 3533, section 6; Vorbis I, section 4.2.2. The checksum is not read. */
const firstByHand = hex(`
  4F676753 00 02                    # OggS, version 0, first page of its stream
  0000000000000000 07000000 00000000  # position 0, stream 7, page 0
  00000000 01 1E                    # checksum, one segment of 30 bytes
  01 766F72626973 00000000          # identification header, vorbis, version 0
  02 80BB0000                       # 2 channels, 48000 Hz
  00000000 00000000 00000000        # bit rates
  B8 01                             # blocks of 2^8 and 2^11, framing bit
`);

describe('an Ogg Vorbis file', () => {
  it('made by hand is as long as its last page says', async () => {
    const { result, reads } = await countReads(join(firstByHand, page(2048), last(5000)));
    expect(result).toEqual({ ...header, channels: 2, rate: 48000 });
    expect(reads).toHaveLength(1);
  });

  it('takes two reads when it is longer than a few KiB', async () => {
    const file = join(first(), ...Array.from({ length: 20 }, () => page(1, 4000)), last(5000));
    const { result, reads } = await countReads(file);
    expect(result).toEqual(header);
    expect(reads).toEqual([
      { offset: 0, length: 4096 },
      { offset: file.length - 8192, length: 8192 },
    ]);
  });

  it('takes three when its last page is longer than the tail', async () => {
    const file = join(first(), page(1, 60000), page(1, 60000), last(5000, 60000));
    const { result, reads } = await countReads(file);
    expect(result).toEqual(header);
    expect(reads).toHaveLength(3);
  });

  it('passes over pages on which no packet ends', async () => {
    expect(await headerOf(join(first(), page(5000), last(-1)))).toEqual(header);
  });

  it('is not misled by what looks like a page', async () => {
    const fake = last(9999, 20);
    fake[22] = (fake[22] ?? 0) ^ 1;
    const data = join(zeros(50), fake, ascii('OggS'), zeros(50));
    expect(await headerOf(join(first(), oggPage({ data, granule: 5000, flags: 4 })))).toEqual(
      header,
    );
  });

  it('may run beside other streams', async () => {
    const skeleton = oggPage({ data: ascii('fishead\0'), flags: 2, serial: 3 });
    const file = join(skeleton, first(), page(3000), last(5000), last(77, 10, 3));
    expect(await headerOf(file)).toEqual(header);
  });
});

describe('what is not read', () => {
  const codec = (begins: string) =>
    join(oggPage({ data: join(ascii(begins), zeros(20)), flags: 2 }), last(5000));

  test.each([
    ['RFC 7845, section 5.1', 'OpusHead', 'Ogg Opus'],
    ['RFC 9639, section 10.1', '\x7fFLAC', 'Ogg FLAC'],
    ['from memory', 'Speex   ', 'Ogg Speex'],
    ['from memory', '\x80theora', 'Ogg Theora'],
    ['none', 'whatever', 'Ogg'],
  ])('%s: %j', async (_, begins, what) => {
    expect(await headerOf(codec(begins))).toEqual({ code: 'unsupported', what });
  });

  it('several streams in a row', async () => {
    const chained = join(first(), last(5000), first({}, 8), last(3000, 100, 8));
    const what = 'Ogg, several streams in a row';
    expect(await headerOf(chained)).toEqual({ code: 'unsupported', what });
  });

  test.each<[Vorbis, object]>([
    [{ version: 1 }, { code: 'unsupported', what: 'Ogg Vorbis version 1' }],
    [{ channels: 0 }, { code: 'impossible', field: 'audio_channels', value: 0 }],
    [{ rate: 0 }, { code: 'impossible', field: 'audio_sample_rate', value: 0 }],
    [{ blocks: 0xb5 }, { code: 'impossible', field: 'blocksize', value: 0xb5 }],
    [{ blocks: 0xe8 }, { code: 'impossible', field: 'blocksize', value: 0xe8 }],
    [{ blocks: 0x8b }, { code: 'impossible', field: 'blocksize', value: 0x8b }],
  ])('%j', async (vorbis, fault) => {
    expect(await headerOf(join(first(vorbis), last(5000)))).toEqual(fault);
  });
});

describe('cut and damaged', () => {
  const whole = join(first(), page(2048), last(5000));

  it('inside the last page: the frames up to the page before', async () => {
    const remarks = [{ code: 'end-missing' }];
    expect(await headerOf(whole.subarray(0, -1))).toEqual({ ...header, frames: 2048, remarks });
  });

  it.each([
    ['its last page has bytes behind it', whole, zeros(9)],
    ['its last page does not say so', join(first(), page(2048), page(5000)), zeros(0)],
  ])('a damaged page counts as missing: %s', async (_, file, behind) => {
    const damaged = join(file, behind);
    damaged[file.length - 5] = 1;
    const remarks = [{ code: 'end-missing' }];
    expect(await headerOf(damaged)).toEqual({ ...header, frames: 2048, remarks });
  });

  it('bytes behind the last page do no harm', async () => {
    expect(await headerOf(join(whole, zeros(200)))).toEqual(header);
  });

  test.each([
    ['inside the first page', whole.subarray(0, 40), { code: 'cut', part: 'first page' }],
    ['behind its header', whole.subarray(0, 20), { code: 'cut', part: 'first page' }],
    ['behind the first page', first(), { code: 'cut', part: 'last page' }],
    ['without a frame', join(first(), last(0)), { code: 'no-sound' }],
    [
      'more frames than bytes can hold',
      join(first(), last(2 ** 40)),
      { code: 'impossible', field: 'granule position', value: 2 ** 40 },
    ],
  ])('%s', async (_, file, fault) => {
    expect(await headerOf(file)).toEqual(fault);
  });
});
