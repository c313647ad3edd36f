import { articulations, firstKey } from './sfz-material.js';

/**
 * A cue of a million events as bytes, the same every time: sixteen tracks, each a part for the large
 * SFZ. Phrases begin with a switch, some under the pedal; CC1 moves at every sixtieth of a second or so.
 */
export const phraseCue = (events = 1_000_000) => {
  const tracks = 16;
  const bytes = new Uint8Array(events * 5 + 4096);
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
    put(0, 0xff, 0x03, 6);
    letters(`Part ${String.fromCharCode(65 + track)}`);
    if (track === 0) put(0, 0xff, 0x51, 3, 0x07, 0xa1, 0x20);
    let left = Math.floor(events / tracks);
    const event = (delta, kind, data1, data2) => {
      if (left === 0) return;
      left -= 1;
      put(delta, kind | track, data1, data2);
    };
    let wheel = 64;
    const ride = (steps) => {
      for (let step = 0; step < steps; step += 1) {
        wheel = Math.min(127, Math.max(0, wheel + dice(13) - 6));
        event(16, 0xb0, 1, wheel);
      }
    };
    while (left > 0) {
      const switchKey = dice(articulations);
      event(10, 0x90, switchKey, 100);
      event(20, 0x80, switchKey, 0);
      const pedal = dice(3) === 0;
      if (pedal) event(5, 0xb0, 64, 127);
      for (let chord = 0; chord < 8; chord += 1) {
        const root = firstKey + dice(60);
        const thirds = dice(2) === 0 ? [0] : [0, 4, 7];
        thirds.forEach((third, i) => event(i === 0 ? 12 : 0, 0x90, root + third, 1 + dice(127)));
        ride(4 + dice(12));
        thirds.forEach((third, i) => event(i === 0 ? 12 : 0, 0x80, root + third, 0));
        ride(dice(4));
      }
      if (pedal) event(5, 0xb0, 64, 0);
    }
    put(0, 0xff, 0x2f, 0);
    const length = at - start;
    for (let byte = 0; byte < 4; byte += 1)
      bytes[lengthAt + byte] = (length >>> (24 - 8 * byte)) & 255;
  }
  return bytes.subarray(0, at);
};
