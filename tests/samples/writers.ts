/** Small writers for made-up files; they share nothing with what reads them. */
export const join = (...parts: readonly Uint8Array[]): Uint8Array =>
  new Uint8Array(Buffer.concat(parts));

export const ascii = (text: string): Uint8Array =>
  Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** `bytes` bytes of a number, the least significant first. */
export const little = (value: number, bytes: number): Uint8Array =>
  Uint8Array.from({ length: bytes }, (_, i) => Math.floor(value / 256 ** i) % 256);

export const big = (value: number, bytes: number): Uint8Array => little(value, bytes).reverse();

export const zeros = (bytes: number): Uint8Array => new Uint8Array(bytes);

/** A RIFF chunk; `size` may state something else than its data has. */
export const riff = (id: string, data: Uint8Array, size = data.length): Uint8Array =>
  join(ascii(id), little(size, 4), data, zeros(data.length % 2));

/** An IFF chunk. */
export const iff = (id: string, data: Uint8Array, size = data.length): Uint8Array =>
  join(ascii(id), big(size, 4), data, zeros(data.length % 2));

export const wave = (...chunks: readonly Uint8Array[]): Uint8Array => {
  const body = join(ascii('WAVE'), ...chunks);
  return join(ascii('RIFF'), little(body.length, 4), body);
};

export const form = (type: 'AIFF' | 'AIFC', ...chunks: readonly Uint8Array[]): Uint8Array => {
  const body = join(ascii(type), ...chunks);
  return join(ascii('FORM'), big(body.length, 4), body);
};

export interface Fmt {
  readonly tag?: number;
  readonly channels?: number;
  readonly rate?: number;
  readonly bits?: number;
  readonly block?: number;
  /** Bytes behind the first sixteen. */
  readonly more?: Uint8Array;
}

/** A `fmt ` chunk; 16-bit mono PCM at 44100 Hz by default. */
export const fmt = ({ tag = 1, channels = 1, rate = 44100, bits = 16, ...rest }: Fmt = {}) => {
  const block = rest.block ?? channels * Math.ceil(bits / 8);
  return riff(
    'fmt ',
    join(
      little(tag, 2),
      little(channels, 2),
      little(rate, 4),
      little((rate * block) % 2 ** 32, 4),
      little(block, 2),
      little(bits, 2),
      rest.more ?? zeros(0),
    ),
  );
};

/** A `smpl` chunk with loops of a first and a last frame. */
export const smpl = (...loops: readonly (readonly [number, number])[]): Uint8Array =>
  riff(
    'smpl',
    join(
      zeros(28),
      little(loops.length, 4),
      zeros(4),
      ...loops.map(([start, end]) => join(zeros(8), little(start, 4), little(end, 4), zeros(8))),
    ),
  );

/** A whole number as an 80-bit extended one, its mantissa shifted left until its top bit is set. */
export const extended = (value: number): Uint8Array => {
  const top = Math.floor(Math.log2(value));
  return join(big(16383 + top, 2), big(value * 2 ** (31 - top), 4), zeros(4));
};

export interface Comm {
  readonly channels?: number;
  readonly frames: number;
  readonly bits?: number;
  readonly rate?: number;
  readonly type?: string;
}

/** A COMM chunk; 16-bit mono at 44100 Hz by default, with `type` that of AIFF-C. */
export const comm = ({ channels = 1, frames, bits = 16, rate = 44100, type }: Comm): Uint8Array =>
  iff(
    'COMM',
    join(
      big(channels, 2),
      big(frames, 4),
      big(bits, 2),
      extended(rate),
      type === undefined ? zeros(0) : join(ascii(type), zeros(2)),
    ),
  );

export const ssnd = (sound: Uint8Array, offset = 0, size = sound.length + 8): Uint8Array =>
  iff('SSND', join(big(offset, 4), zeros(4), sound), size);

export interface StreamInfo {
  readonly channels?: number;
  readonly rate?: number;
  readonly bits?: number;
  readonly frames: number;
  readonly block?: number;
  readonly leastFrame?: number;
}

/** A metadata block of a FLAC file. */
export const flacBlock = (type: number, data: Uint8Array, last = false): Uint8Array =>
  join(Uint8Array.of(type + (last ? 0x80 : 0)), big(data.length, 3), data);

export const streamInfo = (info: StreamInfo): Uint8Array => {
  const { channels = 1, rate = 44100, bits = 16, frames, block = 4096, leastFrame = 0 } = info;
  // 20 bits of rate, 3 of channels - 1, 5 of bits - 1, 36 of frames; the top 4 of these come here.
  const word = rate * 2 ** 12 + (channels - 1) * 2 ** 9 + (bits - 1) * 2 ** 4;
  const frameBits = join(big(word + Math.floor(frames / 2 ** 32), 4), big(frames % 2 ** 32, 4));
  return join(big(block, 2), big(block, 2), big(leastFrame, 3), zeros(3), frameBits, zeros(16));
};

/** Ogg's checksum, bit by bit as RFC 3533, section 6 words it. */
const checksum = (bytes: Uint8Array): number => {
  let crc = 0;
  for (const byte of bytes) {
    for (let bit = 7; bit >= 0; bit -= 1) {
      const carry = (crc >>> 31) ^ ((byte >> bit) & 1);
      crc = (crc << 1) ^ (carry === 1 ? 0x04c11db7 : 0);
    }
  }
  return crc >>> 0;
};

export interface PageText {
  readonly data: Uint8Array;
  /** 1 continued, 2 first, 4 last. */
  readonly flags?: number;
  /** -1: no packet ends here. */
  readonly granule?: number;
  readonly serial?: number;
}

export const oggPage = ({ data, flags = 0, granule = 0, serial = 7 }: PageText): Uint8Array => {
  const full = Math.floor(data.length / 255);
  const lacing = [...Array<number>(full).fill(255), data.length % 255];
  const position = granule < 0 ? zeros(8).fill(0xff) : little(granule, 8);
  const parts = (crc: number) =>
    join(
      ascii('OggS'),
      Uint8Array.of(0, flags),
      position,
      little(serial, 4),
      zeros(4),
      little(crc, 4),
      Uint8Array.of(lacing.length, ...lacing),
      data,
    );
  return parts(checksum(parts(0)));
};

export interface Vorbis {
  readonly version?: number;
  readonly channels?: number;
  readonly rate?: number;
  /** Two exponents, the long block's in the upper half. */
  readonly blocks?: number;
}

export const identification = (vorbis: Vorbis = {}): Uint8Array => {
  const { version = 0, channels = 1, rate = 44100, blocks = 0xb8 } = vorbis;
  return join(
    ascii('\x01vorbis'),
    little(version, 4),
    Uint8Array.of(channels),
    little(rate, 4),
    zeros(12),
    Uint8Array.of(blocks, 1),
  );
};
