import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tuningMessage } from '../../src/playback/tuning-message.ts';
import { bytes, keyDump, programName, repeat } from './tuning-bytes.ts';

/**
 * The forms of the MIDI Tuning messages, from the MIDI Tuning Updated Specification (sections named
 * per table), read in two public copies of its text. Offsets and pitches are in semitones.
 */
const pitchOf = (frequency: string): number | undefined => {
  const message = tuningMessage(bytes(`7F 7F 08 02 00 01 3C ${frequency}`));
  if (message?.kind !== 'keys') throw new Error('not read as a note change');
  return message.pitches.get(60);
};

describe('frequency data', () => {
  // MIDI Tuning, "Frequency data format": the examples of the document. Two of them print a frequency
  // that is not what their bytes say (00 00 01 as 8.2104 Hz, 78 00 01 as 8372.0630 Hz); the bytes count.
  test.each<readonly [data: string, hertz: number]>([
    ['00 00 00', 8.1758],
    ['01 00 00', 8.662],
    ['0C 00 00', 16.3516],
    ['3C 00 00', 261.6256],
    ['3D 00 00', 277.1827],
    ['44 7F 7F', 439.9984],
    ['45 00 00', 440],
    ['45 00 01', 440.0016],
    ['78 00 00', 8372.019],
    ['7F 00 00', 12543.88],
    ['7F 7F 7E', 13289.73],
  ])('%s is %d Hz', (data, hertz) => {
    const pitch = pitchOf(data);
    // The document's last digits are up to 0.01 cents off.
    expect(pitch).toBeCloseTo(69 + 12 * Math.log2(hertz / 440), 3);
  });

  test('a step is 1/16384 of a semitone', () => {
    expect(pitchOf('3C 00 01')).toBe(60 + 1 / 16384);
    expect(pitchOf('3C 40 00')).toBe(60.5);
    expect(pitchOf('44 7F 7F')).toBe(69 - 1 / 16384);
  });

  test('7F 7F 7F is no change', () => {
    expect(pitchOf('7F 7F 7F')).toBeUndefined();
  });
});

describe('single note changes', () => {
  const pitches = new Map([
    [0x30, 0x31 + 0.25],
    [60, 70],
  ]);
  // CA-020, "Single Note Tuning Change"; without a bank, MIDI Tuning, "Single Note Tuning Change".
  test.each<readonly [name: string, message: string, bank: number, program: number]>([
    ['real-time', '7F 7F 08 02 10 02 30 31 20 00 3C 46 00 00', 0, 0x10],
    ['with a bank, real-time', '7F 7F 08 07 05 07 02 30 31 20 00 3C 46 00 00', 5, 7],
    ['with a bank, non real-time', '7E 7F 08 07 05 07 02 30 31 20 00 3C 46 00 00', 5, 7],
    ['to one device', '7F 10 08 02 10 02 30 31 20 00 3C 46 00 00', 0, 0x10],
    ['to another device', '7F 03 08 02 10 02 30 31 20 00 3C 46 00 00', 0, 0x10],
    ['FluidSynth: non real-time', '7E 7F 08 02 10 02 30 31 20 00 3C 46 00 00', 0, 0x10],
  ])('%s', (_, message, bank, program) => {
    expect(tuningMessage(bytes(message))).toEqual({
      kind: 'keys',
      bank,
      program,
      pitches,
    });
  });
});

describe('dumps', () => {
  const tuned = { 60: '3E 20 00', 61: '7F 7F 7F' };
  // MIDI Tuning, "Bulk Tuning Dump"; CA-020, "Key-Based Tuning Dump". Lengths with F0 and F7: 408, 409.
  test.each<readonly [name: string, message: string, bank: number]>([
    ['bulk', keyDump('7E 7F 08 01 09', tuned), 0],
    ['key-based', keyDump('7E 7F 08 04 03 09', tuned), 3],
  ])('%s', (_, message, bank) => {
    const read = tuningMessage(bytes(message));
    if (read?.kind !== 'keys') throw new Error('not read as a dump');
    expect([read.bank, read.program, read.pitches.size]).toEqual([bank, 9, 127]);
    expect([0, 59, 60, 62, 127].map((key) => read.pitches.get(key))).toEqual([
      0, 59, 62.25, 62, 127,
    ]);
  });

  test('the bulk dump is 408 bytes long with F0 and F7', () => {
    expect(bytes(keyDump('7E 7F 08 01 09', tuned)).length + 2).toBe(408);
  });

  // CA-020, "Scale/Octave Tuning Dump", 1 and 2 byte format.
  test.each<readonly [name: string, message: string, c: number, b: number]>([
    ['one byte', `7E 7F 08 05 03 09 ${programName} 00 ${repeat(10, '40')} 7F 00`, -0.64, 0.63],
    [
      'two bytes',
      `7E 7F 08 06 03 09 ${programName} 00 00 ${repeat(10, '40 00')} 7F 7F 00`,
      -1,
      8191 / 8192,
    ],
  ])('scale/octave, %s', (_, message, c, b) => {
    const read = tuningMessage(bytes(message));
    if (read?.kind !== 'keys') throw new Error('not read as a dump');
    expect([read.bank, read.program, read.pitches.size]).toEqual([3, 9, 128]);
    expect(read.pitches.get(60)).toBeCloseTo(60 + c, 4);
    expect(read.pitches.get(64)).toBe(64);
    expect(read.pitches.get(71)).toBeCloseTo(71 + b, 4);
    expect(read.pitches.get(12)).toBeCloseTo(12 + c, 4);
  });
});

describe('scale/octave tuning', () => {
  const even = repeat(12, '40');
  // CA-021, "Scale/Octave Tuning": ff channels 15 and 16, gg 8 to 14, hh 1 to 7. Counted from 0 here.
  test.each<readonly [mask: string, channels: readonly number[]]>([
    ['03 7F 7F', Array.from({ length: 16 }, (_, i) => i)],
    ['00 00 01', [0]],
    ['00 00 40', [6]],
    ['00 01 00', [7]],
    ['00 40 00', [13]],
    ['01 00 00', [14]],
    ['02 00 00', [15]],
    ['7C 00 00', []],
  ])('channel bits %s', (mask, channels) => {
    expect(tuningMessage(bytes(`7F 7F 08 08 ${mask} ${even}`))).toMatchObject({ channels });
  });

  // CA-021: 00 is -64 cents, 40 none, 7F +63; 00 00 -100 cents, 40 00 none, 7F 7F +100 less a step.
  test.each<readonly [name: string, message: string, offsets: readonly number[]]>([
    ['one byte, real-time', '7F 7F 08 08 00 00 01', [-0.64, 0.63]],
    ['one byte, non real-time', '7E 7F 08 08 00 00 01', [-0.64, 0.63]],
    ['two bytes, real-time', '7F 7F 08 09 00 00 01', [-1, 8191 / 8192]],
    ['two bytes, non real-time', '7E 7F 08 09 00 00 01', [-1, 8191 / 8192]],
  ])('%s', (_, head, [c, b]) => {
    const two = head.includes('08 09');
    const data = two ? `00 00 ${repeat(10, '40 00')} 7F 7F` : `00 ${repeat(10, '40')} 7F`;
    const read = tuningMessage(bytes(`${head} ${data}`));
    if (read?.kind !== 'scale') throw new Error('not read as a scale');
    expect(read.offsets).toHaveLength(12);
    expect(read.offsets[0]).toBeCloseTo(c!, 4);
    expect(read.offsets.slice(1, 11)).toEqual(Array(10).fill(0));
    expect(read.offsets[11]).toBeCloseTo(b!, 4);
  });
});

const whole = {
  change: '7F 7F 08 02 00 01 3C 3D 00 00',
  'change with a bank': '7F 7F 08 07 00 00 01 3C 3D 00 00',
  'bulk dump': keyDump('7E 7F 08 01 00'),
  'key-based dump': keyDump('7E 7F 08 04 00 00'),
  'scale dump': `7E 7F 08 05 00 00 ${programName} ${repeat(12, '40')} 00`,
  'fine scale dump': `7E 7F 08 06 00 00 ${programName} ${repeat(12, '40 00')} 00`,
  scale: `7F 7F 08 08 00 00 01 ${repeat(12, '40')}`,
  'fine scale': `7F 7F 08 09 00 00 01 ${repeat(12, '40 00')}`,
};

describe('what is no tuning message', () => {
  test.each(Object.entries(whole))('a %s that is cut anywhere, or goes on', (_, message) => {
    const data = bytes(message);
    expect(tuningMessage(data)).not.toBeNull();
    for (let length = 0; length < data.length; length++) {
      expect(tuningMessage(data.subarray(0, length))).toBeNull();
    }
    expect(tuningMessage(Uint8Array.from([...data, 0]))).toBeNull();
  });

  test.each(Object.entries(whole))('a %s with a byte that is no data byte', (_, message) => {
    const data = bytes(message);
    data[data.length - 1] = 0x80;
    expect(tuningMessage(data)).toBeNull();
  });

  test.each<readonly [name: string, message: string]>([
    ['a bulk dump request (MIDI Tuning)', '7E 7F 08 00 00'],
    ['a bulk dump request with a bank (CA-020)', '7E 7F 08 03 00 00'],
    ['a change of no notes', '7F 7F 08 02 00 00'],
    ['a dump with the real-time header', keyDump('7F 7F 08 01 00')],
    ['GM on', '7E 7F 09 01'],
    ['master coarse tuning (CA-025)', '7F 7F 04 04 00 42'],
    ['a sub-ID that is not assigned', '7F 7F 08 0A 00 01 3C 3D 00 00'],
    ['another maker', '41 7F 08 02 00 01 3C 3D 00 00'],
  ])('%s', (_, message) => {
    expect(tuningMessage(bytes(message))).toBeNull();
  });

  test('bytes at random are read or not, and never an error', () => {
    const head = fc.constantFrom(...Object.values(whole).map((message) => [...bytes(message)]));
    const broken = fc
      .tuple(head, fc.array(fc.tuple(fc.nat(420), fc.nat(255)), { maxLength: 4 }), fc.nat(420))
      .map(([data, changes, length]) => {
        const copy = Uint8Array.from(data);
        for (const [at, byte] of changes) copy[at % copy.length] = byte;
        return copy.subarray(0, length);
      });
    fc.assert(
      fc.property(fc.oneof(broken, fc.uint8Array({ maxLength: 60 })), (data) => {
        const read = tuningMessage(data);
        const values = read === null ? [] : read.kind === 'scale' ? read.offsets : read.pitches;
        for (const value of values) expect([value].flat().every(Number.isFinite)).toBe(true);
      }),
    );
  });
});
