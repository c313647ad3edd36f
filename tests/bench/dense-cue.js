/**
 * A cue of about `size` bytes that holds nothing but events: sixteen tracks of chords and controller
 * rides under running status, three bytes an event. Raw bytes, the same every time: no codec could
 * write it from objects in less than gigabytes.
 */
export const denseCue = (size = 20_000_000) => {
  const tracks = 16;
  const bytes = new Uint8Array(size + 1024);
  let at = 0;
  const put = (...values) => {
    for (const value of values) bytes[at++] = value;
  };
  const letters = (text) => put(...[...text].map((letter) => letter.charCodeAt(0)));
  const long = (value) => put(value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255);
  let seed = 1;
  const dice = (sides) => {
    seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
    return (seed >>> 16) % sides;
  };

  letters('MThd');
  long(6);
  put(0, 1, 0, tracks, 480 >> 8, 480 & 255);
  for (let track = 0; track < tracks; track += 1) {
    letters('MTrk');
    const lengthAt = at;
    long(0);
    const start = at;
    const channel = track;
    put(0, 0xff, 0x03, 6);
    letters(`Part ${String.fromCharCode(65 + track)}`);
    if (track === 0) put(0, 0xff, 0x51, 3, 0x07, 0xa1, 0x20);
    put(0, 0xc0 | channel, (track * 8) & 127);
    const room = Math.floor(size / tracks) - 64;
    while (at - start < room) {
      // A chord of four, a ride on modulation and expression, the end of the chord.
      const root = 36 + dice(48);
      put(10, 0x90 | channel, root, 1 + dice(127));
      for (const third of [4, 7, 12]) put(0, root + third, 1 + dice(127));
      put(5, 0xb0 | channel, 1, dice(128));
      for (let step = 0; step < 24; step += 1) put(5, step % 2 === 0 ? 11 : 1, dice(128));
      put(5, 0x90 | channel, root, 0);
      for (const third of [4, 7, 12]) put(0, root + third, 0);
    }
    put(0, 0xff, 0x2f, 0);
    const length = at - start;
    for (let byte = 0; byte < 4; byte += 1)
      bytes[lengthAt + byte] = (length >>> (24 - 8 * byte)) & 255;
  }
  return bytes.subarray(0, at);
};
