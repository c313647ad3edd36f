import { byteAt } from './bytes.ts';

const utf8 = new TextDecoder('utf-8', { fatal: true });

/** Short enough to build a string letter by letter faster than the decoder starts. */
const short = 200;

const ascii = (bytes: Uint8Array, from: number, to: number): string | null => {
  let text = '';
  for (let at = from; at < to; at += 1) {
    const byte = byteAt(bytes, at);
    if (byte >= 0x80) return null;
    text += String.fromCharCode(byte);
  }
  return text;
};

/** In pieces: a call with a hundred thousand arguments overflows the stack. */
const latin1 = (bytes: Uint8Array): string => {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += 4096) {
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + 4096)));
  }
  return pieces.join('');
};

/**
 * Text of a meta event. SMF 1.0 asks for ASCII and allows other 8-bit codes; exporters write UTF-8
 * or Latin-1 and never say which, so it is UTF-8 when it is valid UTF-8, else Latin-1.
 */
export const decodeText = (bytes: Uint8Array, from: number, to: number): string => {
  const plain = to - from <= short ? ascii(bytes, from, to) : null;
  if (plain !== null) return plain;
  const text = bytes.subarray(from, to);
  try {
    return utf8.decode(text);
  } catch {
    return latin1(text);
  }
};
