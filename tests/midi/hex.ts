/**
 * Bytes from a commented hex dump, so that a test's file can be read by eye.
 *
 * `#` or `//` starts a comment that runs to the end of its line. Blanks and line breaks part bytes
 * as you like: `4D54 68 64` and `4D 54 68 64` are the same. A run with an odd number of digits, or
 * with anything but hex digits in it, is a typing slip and throws.
 *
 * @example hex('90 3C 60  # note on, middle C') // Uint8Array [0x90, 0x3c, 0x60]
 * @throws Error that names the line, counted from 1, and the run
 */
export const hex = (text: string): Uint8Array => {
  const bytes: number[] = [];
  text.split(/\r\n|\r|\n/).forEach((line, index) => {
    const digits = line.replace(/(#|\/\/).*$/, '');
    for (const run of digits.split(/\s+/).filter((part) => part !== '')) {
      const where = `hex dump, line ${index + 1}: "${run}"`;
      if (!/^[0-9a-f]+$/i.test(run)) throw new Error(`${where} is not hex`);
      if (run.length % 2 !== 0) throw new Error(`${where} has an odd number of digits`);
      for (let at = 0; at < run.length; at += 2) {
        bytes.push(Number.parseInt(run.slice(at, at + 2), 16));
      }
    }
  });
  return Uint8Array.from(bytes);
};
