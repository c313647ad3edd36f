import { soundBytes, writeId, writePoints, type SoundFile } from './sound-file.ts';

const commBytes = 18;
const ssndBytes = 8;

/** An AIFF file (AIFF 1.3): numbers with the high byte first, the rate as an 80-bit float. */
export const writeAiff = (sound: SoundFile): Uint8Array => {
  const { channels, rate, bits } = sound;
  const length = soundBytes(sound);
  const body = 4 + 8 + commBytes + 8 + ssndBytes + length + (length % 2);
  const bytes = new Uint8Array(8 + body);
  const view = new DataView(bytes.buffer);
  writeId(view, 0, 'FORM');
  view.setUint32(4, body);
  writeId(view, 8, 'AIFF');
  writeId(view, 12, 'COMM');
  view.setUint32(16, commBytes);
  view.setUint16(20, channels.length);
  view.setUint32(22, channels[0]!.length);
  view.setUint16(26, bits);
  const exponent = 31 - Math.clz32(rate);
  view.setUint16(28, 16_383 + exponent);
  view.setUint32(30, rate * 2 ** (31 - exponent));
  writeId(view, 38, 'SSND');
  view.setUint32(42, ssndBytes + length);
  writePoints(view, 54, sound, false);
  return bytes;
};
