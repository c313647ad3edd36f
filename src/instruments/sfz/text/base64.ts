const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

const unknown = 0xff;
const skipped = 0xfe;

const values = new Uint8Array(128).fill(unknown);
[...alphabet].forEach((sign, value) => (values[sign.charCodeAt(0)] = value));
for (const blank of ' \t\r\n') values[blank.charCodeAt(0)] = skipped;

/**
 * Bytes written as text in base 64 (RFC 4648, section 4), on any number of lines; what is behind the
 * padding does not count.
 *
 * @returns null when another sign is among them or the last one is cut
 */
export const fromBase64 = (text: string): Uint8Array | null => {
  const bytes = new Uint8Array(Math.ceil((text.length * 3) / 4));
  let length = 0;
  let bits = 0;
  let held = 0;
  for (let at = 0; at < text.length; at += 1) {
    if (text[at] === '=') break;
    const value = values[text.charCodeAt(at)] ?? unknown;
    if (value === skipped) continue;
    if (value === unknown) return null;
    held = ((held << 6) | value) & 0xffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[length] = (held >> bits) & 0xff;
    length += 1;
  }
  return bits === 6 ? null : bytes.slice(0, length);
};
