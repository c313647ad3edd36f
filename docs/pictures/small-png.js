// @ts-check
import { deflateSync, inflateSync } from 'node:zlib';

/**
 * Pictures of text need few colours: a PNG of 8 bits a channel becomes one of at most 16 colours, four
 * bits a pixel. PNG (third edition, W3C): chunks in section 5, filters in section 9, PLTE in 11.2.2.
 */

const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const mostColours = 16;

/** @param {Buffer} png */
const chunksOf = (png) => {
  const chunks = [];
  for (let at = 8; at < png.length;) {
    const length = png.readUInt32BE(at);
    const type = png.toString('latin1', at + 4, at + 8);
    chunks.push({ type, data: png.subarray(at + 8, at + 8 + length) });
    at += length + 12;
  }
  return chunks;
};

/** The predictor of section 9.4. @param {number} a @param {number} b @param {number} c */
const paeth = (a, b, c) => {
  const [pa, pb, pc] = [Math.abs(b - c), Math.abs(a - c), Math.abs(a + b - 2 * c)];
  return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
};

/** @param {Buffer} png */
const pixelsOf = (png) => {
  const chunks = chunksOf(png);
  const head = /** @type {Buffer} */ (chunks.find(({ type }) => type === 'IHDR')?.data);
  const [width, height] = [head.readUInt32BE(0), head.readUInt32BE(4)];
  const size = { 2: 3, 6: 4 }[head[9] ?? 0];
  if (head[8] !== 8 || size === undefined || head[12] !== 0) throw new Error('another kind of PNG');
  const packed = chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data);
  const raw = inflateSync(Buffer.concat(packed));
  const stride = width * size;
  const out = Buffer.alloc(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)];
    for (let x = 0; x < stride; x++) {
      const left = x < size ? 0 : (out[y * stride + x - size] ?? 0);
      const up = y === 0 ? 0 : (out[(y - 1) * stride + x] ?? 0);
      const corner = y === 0 || x < size ? 0 : (out[(y - 1) * stride + x - size] ?? 0);
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter ?? 0] ?? 0;
      out[y * stride + x] = (raw[y * (stride + 1) + 1 + x] ?? 0) + guess;
    }
  }
  /** @param {number} i */
  const colour = (i) => out.readUIntBE(i * size, 3);
  return { width, height, colour };
};

/** @param {number} a @param {number} b */
const distance = (a, b) =>
  Math.abs((a >> 16) - (b >> 16)) +
  Math.abs(((a >> 8) & 255) - ((b >> 8) & 255)) +
  Math.abs((a & 255) - (b & 255));

/** The colours that are met most often and lie apart. @param {Map<number, number>} counts */
const paletteOf = (counts) => {
  const often = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]).map(([colour]) => colour);
  for (let apart = 8; ; apart *= 1.5) {
    /** @type {number[]} */
    const palette = [];
    for (const one of often) {
      if (palette.every((other) => distance(one, other) >= apart)) palette.push(one);
    }
    if (palette.length <= mostColours) return palette;
  }
};

/** @param {Buffer} data */
const crc = (data) => {
  let sum = 0xffffffff;
  for (const byte of data) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
  }
  return (sum ^ 0xffffffff) >>> 0;
};

/** @param {string} type @param {Buffer} data */
const chunk = (type, data) => {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const ends = Buffer.alloc(8);
  ends.writeUInt32BE(data.length, 0);
  ends.writeUInt32BE(crc(body), 4);
  return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
};

/** The same picture in few colours. @param {Buffer} png @returns {Buffer} */
export const smallPng = (png) => {
  const { width, height, colour } = pixelsOf(png);
  /** @type {Map<number, number>} */
  const counts = new Map();
  for (let i = 0; i < width * height; i++) counts.set(colour(i), (counts.get(colour(i)) ?? 0) + 1);
  const palette = paletteOf(counts);
  const nearest = new Map(
    [...counts.keys()].map((one) => {
      const far = palette.map((other) => distance(one, other));
      return [one, far.indexOf(Math.min(...far))];
    }),
  );
  const stride = Math.ceil(width / 2) + 1;
  const rows = Buffer.alloc(stride * height);
  for (let i = 0; i < width * height; i++) {
    const [x, y] = [i % width, Math.floor(i / width)];
    const at = y * stride + 1 + (x >> 1);
    rows[at] = (rows[at] ?? 0) | ((nearest.get(colour(i)) ?? 0) << (x % 2 === 0 ? 4 : 0));
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([4, 3, 0, 0, 0], 8);
  const colours = Buffer.alloc(palette.length * 3);
  palette.forEach((one, i) => colours.writeUIntBE(one, i * 3, 3));
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('PLTE', colours),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};
