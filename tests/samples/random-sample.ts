import fc from 'fast-check';
import {
  ascii,
  comm,
  flacBlock,
  fmt,
  form,
  identification,
  iff,
  join,
  little,
  oggPage,
  riff,
  smpl,
  ssnd,
  streamInfo,
  wave,
  zeros,
} from './writers.ts';

/** A made-up file and the header it should come to. */
export interface RandomSample {
  readonly file: Uint8Array;
  readonly header: object;
}

const common = {
  frames: fc.integer({ min: 1, max: 3000 }),
  rate: fc.integer({ min: 1, max: 655350 }),
  loop: fc.option(fc.tuple(fc.nat(), fc.nat())),
};

const inside = (pair: readonly [number, number] | null, frames: number) => {
  if (pair === null) return null;
  const [a, b] = pair.map((value) => value % frames) as [number, number];
  return { start: Math.min(a, b), end: Math.max(a, b) };
};

/** Chunks of no interest, of even and odd length. */
const others = (chunk: (id: string, data: Uint8Array) => Uint8Array) =>
  fc.array(
    fc
      .tuple(
        fc.constantFrom('JUNK', 'cue ', 'PAD ', 'ANNO', 'xyz '),
        fc.integer({ max: 300, min: 0 }),
      )
      .map(([id, bytes]) => chunk(id, zeros(bytes))),
    { maxLength: 4 },
  );

const shuffled = (chunks: readonly Uint8Array[]) =>
  fc.shuffledSubarray([...chunks], { minLength: chunks.length, maxLength: chunks.length });

export const anyWav: fc.Arbitrary<RandomSample> = fc
  .record({
    ...common,
    channels: fc.integer({ min: 1, max: 9 }),
    kind: fc.constantFrom([1, 8], [1, 12], [1, 16], [1, 24], [1, 32], [3, 32], [3, 64]),
    more: others(riff),
  })
  .chain(({ frames, rate, channels, kind: [tag = 1, bits = 16], loop: pair, more }) => {
    const width = Math.ceil(bits / 8);
    const loop = inside(pair, frames);
    const header = { format: 'wav', frames, channels, rate, width, widthAssumed: false, loop };
    const sampler = loop === null ? [] : [smpl([loop.start, loop.end])];
    const sound = riff('data', zeros(frames * channels * width));
    const all = [fmt({ tag, channels, rate, bits }), sound, ...sampler, ...more];
    return shuffled(all).map((chunks) => ({
      file: wave(...chunks),
      header: { ...header, remarks: [] },
    }));
  });

export const anyAiff: fc.Arbitrary<RandomSample> = fc
  .record({
    ...common,
    channels: fc.integer({ min: 1, max: 9 }),
    bits: fc.integer({ min: 1, max: 32 }),
    more: others(iff),
  })
  .chain(({ frames, rate, channels, bits, loop: pair, more }) => {
    const width = Math.ceil(bits / 8);
    const loop = inside(pair, frames);
    const header = { format: 'aiff', frames, channels, rate, width, widthAssumed: false, loop };
    const marker = (id: number, place: number) =>
      join(little(id * 256, 2), little(place, 4).reverse(), ascii('\x03abc'));
    const marks =
      loop === null
        ? []
        : [
            iff('MARK', join(ascii('\0\x02'), marker(1, loop.start), marker(2, loop.end + 1))),
            iff('INST', join(zeros(8), ascii('\0\x01\0\x01\0\x02'), zeros(6))),
          ];
    const sound = ssnd(zeros(frames * channels * width));
    return shuffled([comm({ channels, frames, bits, rate }), sound, ...marks, ...more]).map(
      (chunks) => ({ file: form('AIFF', ...chunks), header: { ...header, remarks: [] } }),
    );
  });

export const anyFlac: fc.Arbitrary<RandomSample> = fc
  .record({
    ...common,
    channels: fc.integer({ min: 1, max: 8 }),
    bits: fc.integer({ min: 4, max: 32 }),
    block: fc.integer({ min: 16, max: 65535 }),
    tag: fc.option(fc.nat(100)),
  })
  .map(({ frames, rate, channels, bits, block, loop: pair, tag }) => {
    const loop = inside(pair, frames);
    const info = streamInfo({ frames, rate, channels, bits, block });
    const kept =
      loop === null ? [] : [flacBlock(2, join(ascii('riff'), smpl([loop.start, loop.end])))];
    const id3 =
      tag === null ? zeros(0) : join(ascii('ID3\x03\0\0\0\0\0'), little(tag, 1), zeros(tag));
    const rest = [...kept, flacBlock(1, zeros(20), true), zeros(Math.ceil(frames / block) * 10)];
    const file = join(id3, ascii('fLaC'), flacBlock(0, info), ...rest);
    const width = Math.ceil(bits / 8);
    const header = { format: 'flac', frames, channels, rate, width, widthAssumed: false, loop };
    return { file, header: { ...header, remarks: [] } };
  });

export const anyOgg: fc.Arbitrary<RandomSample> = fc
  .record({
    frames: fc.integer({ min: 1, max: 50_000 }),
    rate: common.rate,
    channels: fc.integer({ min: 1, max: 255 }),
    serial: fc.nat(),
    pages: fc.array(fc.integer({ min: 0, max: 6000 }), { maxLength: 6 }),
  })
  .map(({ frames, rate, channels, serial, pages }) => {
    const file = join(
      oggPage({ data: identification({ channels, rate }), flags: 2, serial }),
      ...pages.map((bytes, i) => oggPage({ data: zeros(bytes), granule: i, serial })),
      oggPage({ data: zeros(100), granule: frames, flags: 4, serial }),
    );
    const plain = { format: 'ogg-vorbis', width: 2, widthAssumed: true, loop: null, remarks: [] };
    return { file, header: { ...plain, frames, channels, rate } };
  });

export const anySample = fc.oneof(anyWav, anyAiff, anyFlac, anyOgg);
