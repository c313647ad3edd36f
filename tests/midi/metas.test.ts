import { describe, expect, it, test } from 'vitest';
import { sixEight } from '../../reference/smf-1.0-fragments.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import type { Score } from '../../src/midi/score.ts';
import { listFindings } from './listing.ts';
import { smf } from './smf-file.ts';

/** Hex of a text as its UTF-8 bytes, behind its length. */
const text = (words: string): string => {
  const bytes = new TextEncoder().encode(words);
  const hexes = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join(' ');
  return `${bytes.length.toString(16).padStart(2, '0')} ${hexes}`;
};

const readTracks = (tracks: readonly string[], format = 1): Score =>
  readMidi(smf(tracks, { format }), 'cue.mid');

const readOne = (body: string): Score => readTracks([`${body}  00 FF 2F 00`]);

describe('names', () => {
  it('track, instrument and device: the first of each', () => {
    const score = readOne(`
      00 FF 03 ${text('Vln 1 leg')}
      00 FF 04 ${text('Violins')}
      00 FF 09 ${text('Port A')}
      00 FF 08 ${text('a program')}
      60 FF 03 ${text('later')}  00 FF 04 ${text('later')}  00 FF 09 ${text('later')}`);
    expect(score.tracks[0]).toMatchObject({
      name: 'Vln 1 leg',
      instrumentName: 'Violins',
      deviceName: 'Port A',
    });
    expect(score.findings).toEqual([]);
  });

  it('an empty name is none', () => {
    expect(readOne('00 FF 03 00').tracks[0]?.name).toBeNull();
    expect(readOne(`00 FF 03 00  00 FF 03 ${text('Cello')}`).tracks[0]?.name).toBe('Cello');
  });

  test.each([
    ['ASCII', '05 43 65 6C 6C 6F', 'Cello'],
    ['UTF-8', '06 46 6C C3 B6 74 65', 'Flöte'],
    ['Latin-1', '05 46 6C F6 74 65', 'Flöte'],
    ['Latin-1 that starts like UTF-8', '03 C3 28 C3', 'Ã(Ã'],
    ['UTF-8 beyond the first plane', '04 F0 9D 84 9E', '\u{1D11E}'],
    ['a zero byte inside', '03 41 00 42', 'A\0B'],
  ])('%s', (_, bytes, name) => {
    expect(readOne(`00 FF 03 ${bytes}`).tracks[0]?.name).toBe(name);
  });

  test.each([
    ['ASCII', '41', 'A'],
    ['Latin-1', 'E9', 'é'],
  ])('a text of 200 kB, %s', (_, byte, letter) => {
    const length = 200_000; // 8C 9A 40 as a variable-length quantity
    const score = readOne(`00 FF 03 8C 9A 40 ${byte.repeat(length)}  00 90 3C 40`);
    expect(score.tracks[0]?.name).toBe(letter.repeat(length));
    expect(score.tracks[0]?.events.length).toBe(1);
  });
});

describe('tempo and meter', () => {
  it('120 quarter notes a minute and 4/4 where the file says nothing (RP-001)', () => {
    expect(readOne('').timelines).toEqual([
      {
        division: { kind: 'metrical', ticksPerQuarter: 480 },
        tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
        meter: [{ tick: 0, beats: 4, unit: 4 }],
        markers: [],
        smpteOffset: null,
        timecode: null,
      },
    ]);
  });

  it('hold from their ticks on, and the defaults before', () => {
    const [timeline] = readOne(`
      83 60 FF 51 03 0F 42 40        # tick 480: 60 a minute
      00 FF 58 04 07 03 18 08        # 7/8
      83 60 FF 51 03 07 A1 20        # tick 960: 120 a minute`).timelines;
    expect(timeline?.tempo).toEqual([
      { tick: 0, microsecondsPerQuarter: 500_000 },
      { tick: 480, microsecondsPerQuarter: 1_000_000 },
      { tick: 960, microsecondsPerQuarter: 500_000 },
    ]);
    expect(timeline?.meter).toEqual([
      { tick: 0, beats: 4, unit: 4 },
      { tick: 480, beats: 7, unit: 8 },
    ]);
  });

  it('come from every track of format 1, in the order of their ticks', () => {
    const [timeline] = readTracks([
      '83 60 FF 51 03 00 00 02  00 FF 2F 00',
      '00 FF 51 03 00 00 01  87 40 FF 51 03 00 00 03  00 FF 2F 00',
    ]).timelines;
    expect(timeline?.tempo).toEqual([
      { tick: 0, microsecondsPerQuarter: 1 },
      { tick: 480, microsecondsPerQuarter: 2 },
      { tick: 960, microsecondsPerQuarter: 3 },
    ]);
  });

  it('several on one tick: the last one holds', () => {
    const [timeline] = readOne('00 FF 51 03 00 00 01  00 FF 51 03 00 00 02').timelines;
    expect(timeline?.tempo).toEqual([{ tick: 0, microsecondsPerQuarter: 2 }]);
  });

  it('RP-001, "Time Signature": 6/8', () => {
    expect(readOne(`00 ${sixEight.hex}`).timelines[0]?.meter).toEqual([
      { tick: 0, beats: sixEight.numerator, unit: sixEight.denominator },
    ]);
  });

  test.each([
    ['a tempo of 0', '00 FF 51 03 00 00 00', 'note tempo-zero'],
    ['a meter of 0 beats', '00 FF 58 04 00 02 18 08', 'note meter-odd {"beats":0,"power":2}'],
    ['a unit of 2 to the 32', '00 FF 58 04 04 20 18 08', 'note meter-odd {"beats":4,"power":32}'],
    ['a unit of 256', '00 FF 58 04 04 08 18 08', 'note meter-odd {"beats":4,"power":8}'],
  ])('%s is ignored, with one finding', (_, body, found) => {
    const score = readOne(`${body}  ${body}`);
    expect(score.timelines).toEqual(readOne('').timelines);
    expect(listFindings(score)).toEqual([found]);
  });

  it('a unit of 128 is the smallest', () => {
    expect(readOne('00 FF 58 04 04 07 18 08').timelines[0]?.meter[0]?.unit).toBe(128);
  });
});

describe('markers and SMPTE offset', () => {
  it('markers and cue points by tick, over all tracks', () => {
    const [timeline] = readTracks([
      `83 60 FF 06 ${text('2m1')}  00 FF 2F 00`,
      `00 FF 07 ${text('door')}  00 FF 06 00  00 FF 2F 00`,
    ]).timelines;
    expect(timeline?.markers).toEqual([
      { tick: 0, kind: 'cue-point', text: 'door' },
      { tick: 0, kind: 'marker', text: '' },
      { tick: 480, kind: 'marker', text: '2m1' },
    ]);
  });

  test.each([
    ['01 02 03 04 05', '01:02:03:04'],
    ['61 3B 3B 1D 63', '01:59:59:29'], // rate bits of 30 frames above the hour
  ])('SMPTE offset %s', (bytes, time) => {
    expect(readOne(`00 FF 54 05 ${bytes}`).timelines[0]?.smpteOffset).toBe(time);
  });

  it('SMPTE offset with its rate and its hundredths; the first one holds, sound or not', () => {
    const [timeline] = readOne('00 FF 54 05 61 3B 3B 1D 63  00 FF 54 05 01 02 03 04 05').timelines;
    expect(timeline?.timecode).toEqual({
      rate: 30,
      hours: 1,
      minutes: 59,
      seconds: 59,
      frames: 29,
      hundredths: 99,
    });
    const [odd] = readOne('00 FF 54 05 1F 3B 3B 1D 63  00 FF 54 05 01 02 03 04 05').timelines;
    // No clock shows 31 hours.
    expect(odd).toMatchObject({ smpteOffset: '31:59:59:29', timecode: null });
  });
});

describe('ports', () => {
  it.each([
    ['none', '00 90 3C 40', [{ from: 0, port: 0 }]],
    ['one in front', '00 FF 21 01 03  00 90 3C 40', [{ from: 0, port: 3 }]],
    [
      'a change',
      '00 90 3C 40  00 FF 21 01 02  00 80 3C 40',
      [
        { from: 0, port: 0 },
        { from: 1, port: 2 },
      ],
    ],
    [
      'two in a row: the second holds',
      '00 90 3C 40  00 FF 21 01 02  00 FF 21 01 05  00 80 3C 40',
      [
        { from: 0, port: 0 },
        { from: 1, port: 5 },
      ],
    ],
    ['the same again', '00 90 3C 40  00 FF 21 01 00  00 80 3C 40', [{ from: 0, port: 0 }]],
    ['127', '00 FF 21 01 7F', [{ from: 0, port: 127 }]],
  ])('%s', (_, body, ports) => {
    const score = readOne(body);
    expect(score.tracks[0]?.ports).toEqual(ports);
    expect(score.findings).toEqual([]);
  });

  it('above 127 is ignored, with a finding', () => {
    const score = readOne('00 FF 21 01 02  00 FF 21 01 80');
    expect(score.tracks[0]?.ports).toEqual([{ from: 0, port: 2 }]);
    expect(listFindings(score)).toEqual(['note port-odd {"port":128}']);
  });
});

describe('meta events of a wrong length', () => {
  // RP-001, "Meta-Events", gives the lengths; each body is followed by a note that must be read.
  test.each([
    ['a sequence number of 0 bytes', 'FF 00 00', 0, 0, 2],
    ['a channel prefix of 0 bytes', 'FF 20 00', 0x20, 0, 1],
    ['a port of 2 bytes', 'FF 21 02 03 04', 0x21, 2, 1],
    ['a port of 0 bytes', 'FF 21 00', 0x21, 0, 1],
    ['a tempo of 4 bytes', 'FF 51 04 07 A1 20 00', 0x51, 4, 3],
    ['a tempo of 2 bytes', 'FF 51 02 07 A1', 0x51, 2, 3],
    ['an SMPTE offset of 4 bytes', 'FF 54 04 01 02 03 04', 0x54, 4, 5],
    ['a meter of 5 bytes', 'FF 58 05 03 02 18 08 00', 0x58, 5, 4],
    ['a meter of 2 bytes', 'FF 58 02 03 02', 0x58, 2, 4],
    ['a key of 3 bytes', 'FF 59 03 00 00 00', 0x59, 3, 2],
  ])('%s', (_, meta, type, length, expected) => {
    const score = readOne(`00 ${meta}  00 90 3C 40`);
    expect(score.tracks[0]).toMatchObject({ damage: null, events: { length: 1 } });
    expect(listFindings(score)).toEqual([
      `note meta-length ${JSON.stringify({ type, length, expected })}`,
    ]);
  });

  it('longer ones are read as far as the standard goes, shorter ones are not', () => {
    const longer = readOne(
      '00 FF 21 02 03 04  00 FF 51 04 0F 42 40 00  00 FF 58 05 03 02 18 08 00',
    );
    expect(longer.tracks[0]?.ports).toEqual([{ from: 0, port: 3 }]);
    expect(longer.timelines[0]?.tempo[0]?.microsecondsPerQuarter).toBe(1_000_000);
    expect(longer.timelines[0]?.meter[0]?.beats).toBe(3);
    const shorter = readOne(
      '00 FF 21 00  00 FF 51 02 07 A1  00 FF 58 02 03 02  00 FF 54 04 01 02 03 04',
    );
    expect(shorter.tracks[0]?.ports).toEqual([{ from: 0, port: 0 }]);
    expect(shorter.timelines).toEqual(readOne('').timelines);
  });

  it('one finding a track and kind, with its place', () => {
    const body = '00 FF 59 01 00  00 FF 59 01 00  00 FF 20 00  00 FF 2F 00';
    const score = readTracks([body, body]);
    expect(score.findings.map(({ args, at }) => [args, at])).toEqual([
      [
        { type: 0x59, length: 1, expected: 2 },
        { track: 0, tick: 0, bar: 1, beat: 1, byte: 26 },
      ],
      [
        { type: 0x20, length: 0, expected: 1 },
        { track: 0, tick: 0, bar: 1, beat: 1, byte: 36 },
      ],
      [
        { type: 0x59, length: 1, expected: 2 },
        { track: 1, tick: 0, bar: 1, beat: 1, byte: 52 },
      ],
      [
        { type: 0x20, length: 0, expected: 1 },
        { track: 1, tick: 0, bar: 1, beat: 1, byte: 62 },
      ],
    ]);
  });
});

describe('meta events that say nothing to us', () => {
  test.each([
    ['a lyric', 'FF 05 02 6C 61'],
    ['an unknown type', 'FF 4B 03 01 02 03'],
    ['a type above 127', 'FF 90 01 00'],
    ['sequencer specific', 'FF 7F 04 00 00 41 01'],
    ['a key with a mode of FF (met in two files of a free game)', 'FF 59 02 FF FF'],
  ])('%s is skipped', (_, meta) => {
    const score = readOne(`00 ${meta}  00 90 3C 40`);
    expect(score.tracks[0]?.events.length).toBe(1);
    expect(score.findings).toEqual([]);
  });
});
