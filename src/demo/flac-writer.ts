/** Frames in a block; of all but the last one. */
const block = 4096;

/** Codes of a frame's header (RFC 9639, section 9.1): the rates the demo has, 4096 frames, 16 bits. */
const rateCodes: Readonly<Record<number, number>> = { 22_050: 0b0110, 44_100: 0b1001 };
const blockCode = 0b1100;
const otherBlockCode = 0b0111;
const bitsCode = 0b100;

/**
 * A FLAC file of one channel in 16 bits whose blocks are stored as they are (RFC 9639): nothing is
 * packed, so no reader has an easier file to read. At most 127 blocks, whose numbers take one byte.
 */
export const writeFlac = (points: Int16Array, rate: number): Uint8Array => {
  const blocks = Array.from({ length: Math.ceil(points.length / block) }, (_, number) =>
    frame(points.subarray(number * block, (number + 1) * block), number, rate),
  );
  const head = streamInfo(points.length, rate);
  const bytes = new Uint8Array(blocks.reduce((sum, { length }) => sum + length, head.length));
  let at = 0;
  for (const piece of [head, ...blocks]) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
};

/** The marker and the one metadata block there has to be (section 8.2); its checksum is left open. */
const streamInfo = (frames: number, rate: number): Uint8Array => {
  const bytes = new Uint8Array(4 + 4 + 34);
  const view = new DataView(bytes.buffer);
  bytes.set([0x66, 0x4c, 0x61, 0x43, 0x80, 0, 0, 34]);
  view.setUint16(8, block);
  view.setUint16(10, block);
  // 20 bits of rate, 3 of channels less one, 5 of bits less one, 36 of frames.
  view.setUint32(18, rate * 2 ** 12 + (16 - 1) * 2 ** 4);
  view.setUint32(22, frames);
  return bytes;
};

const frame = (points: Int16Array, number: number, rate: number): Uint8Array => {
  const whole = points.length === block;
  const header = [
    ...[0xff, 0xf8, ((whole ? blockCode : otherBlockCode) << 4) | rateCodes[rate]!],
    ...[bitsCode << 1, number],
    ...(whole ? [] : [(points.length - 1) >> 8, (points.length - 1) & 0xff]),
  ];
  const bytes = new Uint8Array(header.length + 1 + 1 + 2 * points.length + 2);
  const view = new DataView(bytes.buffer);
  bytes.set(header);
  bytes[header.length] = checksum(bytes.subarray(0, header.length), 8, 0x07);
  bytes[header.length + 1] = 1 << 1; // a verbatim subframe without wasted bits
  points.forEach((point, i) => {
    view.setInt16(header.length + 2 + 2 * i, point);
  });
  const end = bytes.length - 2;
  view.setUint16(end, checksum(bytes.subarray(0, end), 16, 0x8005));
  return bytes;
};

/** A cyclic redundancy check that starts at 0 (sections 9.1.8 and 9.3). */
const checksum = (bytes: Uint8Array, width: 8 | 16, polynomial: number): number => {
  const top = 1 << (width - 1);
  const mask = 2 * top - 1;
  let sum = 0;
  for (const byte of bytes) {
    sum ^= byte << (width - 8);
    for (let bit = 0; bit < 8; bit++) {
      sum = ((sum << 1) ^ ((sum & top) === 0 ? 0 : polynomial)) & mask;
    }
  }
  return sum;
};
