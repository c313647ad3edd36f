import { describe, expect, it, test } from 'vitest';
import { readMidi } from '../../src/midi/read-midi.ts';
import { hex } from './hex.ts';
import { read, refusal } from './listing.ts';
import { chunk, header, join, smf, track } from './smf-file.ts';

const one = track('00 90 3C 40  00 FF 2F 00');
const two = track('00 91 40 40  00 FF 2F 00');
const oneRead = ['0 90 3C 40'];
const twoRead = ['0 91 40 40'];
/** An invented chunk, not of the standard. */
const alien = chunk('XFIH', hex('01 02 03'));
const alienFound = 'note chunk-unknown {"id":"XFIH","length":3}';

describe('chunks', () => {
  test.each([
    ['a strange chunk before the track', [header(), alien, one], [oneRead], 0, [alienFound]],
    [
      'a strange chunk between tracks',
      [header({ count: 2 }), one, alien, two],
      [oneRead, twoRead],
      0,
      [alienFound],
    ],
    ['a strange chunk behind the track', [header(), one, alien], [oneRead], 0, [alienFound]],
    [
      'padding behind the last track: one finding, not one for every eight bytes',
      [header(), one, new Uint8Array(4096)],
      [oneRead],
      0,
      ['note chunk-unknown {"id":"\\\\x00\\\\x00\\\\x00\\\\x00","length":4088}'],
    ],
    [
      'some bytes behind the last track',
      [header(), one, hex('41 42 43')],
      [oneRead],
      0,
      [
        'warning chunk-cut {"id":"ABC","promised":5,"present":0}',
        'note chunk-unknown {"id":"ABC","length":0}',
      ],
    ],
    [
      'more tracks than promised',
      [header(), one, two],
      [oneRead, twoRead],
      0,
      ['note tracks-beyond-header {"promised":1,"present":2}'],
    ],
    [
      'fewer tracks than promised',
      [header({ count: 5 }), one],
      [oneRead],
      4,
      ['warning tracks-missing {"promised":5,"present":1}'],
    ],
    [
      'a header that promises none',
      [header({ count: 0 }), one],
      [oneRead],
      0,
      ['note tracks-beyond-header {"promised":0,"present":1}'],
    ],
    ['a track of no bytes', [header(), chunk('MTrk', hex(''))], [[]], 0, ['note track-no-end']],
    [
      'no track at all',
      [header({ count: 1 })],
      [],
      1,
      ['warning tracks-missing {"promised":1,"present":0}', 'warning midi-no-tracks'],
    ],
    ['no track, none promised', [header({ count: 0 })], [], 0, ['warning midi-no-tracks']],
    [
      'a track cut inside its chunk head',
      [header({ count: 2 }), one, hex('4D 54 72 6B 00 00')],
      [oneRead, []],
      0,
      ['warning track-truncated', 'warning chunk-cut {"id":"MTrk","promised":2,"present":0}'],
    ],
  ])('%s', (_, parts, tracks, missing, findings) => {
    const result = read(join(...parts));
    expect(result.tracks).toEqual(tracks);
    expect(result.missing).toBe(missing);
    expect(result.findings).toEqual(findings);
  });

  it('does not read more tracks than a header can count: the rest is missing', () => {
    const empty = chunk('MTrk', new Uint8Array(0));
    const count = 0xffff + 3;
    const bytes = new Uint8Array(14 + 8 * count);
    bytes.set(header({ count: 0xffff }));
    for (let index = 0; index < count; index += 1) bytes.set(empty, 14 + 8 * index);
    const score = readMidi(bytes, 'cue.mid');
    expect(score.tracks).toHaveLength(0xffff);
    expect(score.missingTracks).toBe(3);
  });
});

describe('the header', () => {
  test.each([
    ['an empty file', '', 'midi-empty'],
    ['another kind of file', '50 4B 03 04 00 00', 'midi-not-a-midi-file'],
    ['one byte', '4D', 'midi-not-a-midi-file'],
    ['a track without a header', '4D 54 72 6B 00 00 00 04 00 FF 2F 00', 'midi-not-a-midi-file'],
    ['junk in front', '00 00 00 4D 54 68 64 00 00 00 06 00 00 00 01 00 60', 'midi-not-a-midi-file'],
    ['only its name', '4D 54 68 64', 'midi-header-cut'],
    ['the file ends inside it', '4D 54 68 64 00 00 00 06 00 01 00', 'midi-header-cut'],
    [
      'a length of 4',
      '4D 54 68 64 00 00 00 04 00 01 00 01 4D 54 72 6B 00 00 00 04 00 FF 2F 00',
      'midi-header-cut',
    ],
    ['division 0', '4D 54 68 64 00 00 00 06 00 01 00 01 00 00', 'midi-division-zero'],
    ['no ticks in a frame', '4D 54 68 64 00 00 00 06 00 01 00 01 E7 00', 'midi-division-zero'],
  ])('is refused: %s', (_, text, code) => {
    expect(refusal(hex(text))).toBe(code);
  });

  it('says what a file that is none begins with, printable', () => {
    expect(() => readMidi(hex('1B 5B 7F 4A 41'), 'cue.mid')).toThrow(
      expect.objectContaining({
        finding: {
          code: 'midi-not-a-midi-file',
          severity: 'error',
          file: 'cue.mid',
          at: { byte: 0 },
          args: { begins: '\\x1b[\\x7fJ' },
        },
      }),
    );
  });

  it('longer than 6 bytes: the rest is skipped', () => {
    const long = chunk('MThd', hex('00 01 00 01 01 E0 AA BB'));
    expect(read(join(long, one))).toEqual({
      tracks: [oneRead],
      damage: [null],
      missing: 0,
      findings: ['note midi-header-length {"length":8}'],
    });
  });

  test.each([0x7fff_ffff, 0xffff_fff8])(
    'a length of %d takes the file: tracks are missing',
    (length) => {
      const bytes = join(chunk('MThd', hex('00 01 00 00 01 E0'), length), one);
      const result = read(bytes);
      expect(result.missing).toBe(1);
      expect(result.findings).toContain('warning midi-no-tracks');
    },
  );

  it('format 7 is read like format 1', () => {
    const score = readMidi(join(header({ format: 7, count: 2 }), one, two), 'cue.mid');
    expect(score.format).toBe(1);
    expect(score.timelines).toHaveLength(1);
    expect(score.findings.map(({ code }) => code)).toEqual(['midi-format-unknown']);
  });

  test.each([
    ['E7 28', 25, 40],
    ['E3 50', 29, 80],
    ['E8 04', 24, 4],
    ['80 01', 128, 1],
  ])('division %s', (division, framesPerSecond, ticksPerFrame) => {
    const score = readMidi(smf(['00 FF 2F 00'], { division }), 'cue.mid');
    expect(score.timelines[0]?.division).toEqual({ kind: 'smpte', framesPerSecond, ticksPerFrame });
  });

  it('division 7FFF is the largest number of ticks a quarter note', () => {
    const score = readMidi(smf(['00 FF 2F 00'], { division: '7F FF' }), 'cue.mid');
    expect(score.timelines[0]?.division).toEqual({ kind: 'metrical', ticksPerQuarter: 32_767 });
  });
});

describe('two files in one', () => {
  it('both are read, each on a timeline and with a division of its own', () => {
    const slow = track('00 FF 51 03 0F 42 40  00 91 40 40  00 FF 2F 00');
    const score = readMidi(join(header(), one, header({ division: '00 60' }), slow), 'cue.mid');
    expect(score.tracks.map(({ index, timeline }) => [index, timeline])).toEqual([
      [0, 0],
      [1, 1],
    ]);
    expect(score.timelines.map(({ division }) => division)).toEqual([
      { kind: 'metrical', ticksPerQuarter: 480 },
      { kind: 'metrical', ticksPerQuarter: 96 },
    ]);
    expect(score.timelines.map(({ tempo }) => tempo[0]?.microsecondsPerQuarter)).toEqual([
      500_000, 1_000_000,
    ]);
    expect(score.findings).toEqual([
      {
        code: 'midi-header-repeated',
        severity: 'warning',
        file: 'cue.mid',
        at: { byte: 30 },
        args: {},
      },
    ]);
  });

  it('the second header counts its own tracks', () => {
    const result = read(join(header(), one, header({ count: 3 }), two));
    expect(result.missing).toBe(2);
    expect(result.tracks).toEqual([oneRead, twoRead]);
  });

  test.each([
    ['without a division', header({ division: '00 00' }), 'midi-division-zero'],
    ['too short', chunk('MThd', hex('00 01')), 'midi-header-cut'],
  ])('a second header %s never loses the notes', (_, second, code) => {
    const score = readMidi(join(header({ division: '00 60' }), one, second, two), 'cue.mid');
    expect(score.tracks).toHaveLength(2);
    expect(score.timelines[1]?.division).toEqual({ kind: 'metrical', ticksPerQuarter: 96 });
    expect(score.findings.map((found) => found.code)).toContain(code);
  });
});

describe('format 2', () => {
  it('each track has a timeline of its own', () => {
    const tracks = ['00 FF 51 03 0F 42 40  00 FF 2F 00', '00 90 3C 40  00 FF 2F 00'];
    const score = readMidi(smf(tracks, { format: 2 }), 'cue.mid');
    expect(score.format).toBe(2);
    expect(score.tracks.map(({ timeline }) => timeline)).toEqual([0, 1]);
    expect(score.timelines.map(({ tempo }) => tempo[0]?.microsecondsPerQuarter)).toEqual([
      1_000_000, 500_000,
    ]);
  });
});

describe('RIFF files of type RMID (RP-029)', () => {
  const riffLong = (value: number): Uint8Array =>
    Uint8Array.from([0, 8, 16, 24].map((shift) => (value >>> shift) & 0xff));
  const riff = (id: string, data: Uint8Array, length = data.length): Uint8Array =>
    join(
      Uint8Array.from([...id].map((letter) => letter.charCodeAt(0))),
      riffLong(length),
      data,
      data.length % 2 === 0 ? hex('') : hex('00'),
    );
  const rmid = (...chunks: readonly Uint8Array[]): Uint8Array =>
    riff('RIFF', join(hex('52 4D 49 44'), ...chunks));
  const file = join(header(), one);

  it('the data chunk is read, offsets count in the whole file', () => {
    const broken = join(header(), track('00 90 3C C0'));
    expect(read(rmid(riff('data', file))).tracks).toEqual([oneRead]);
    expect(read(rmid(riff('data', file))).findings).toEqual([]);
    expect(read(rmid(riff('data', broken))).damage).toEqual([{ tick: 0, byte: 20 + 25 }]);
  });

  it('chunks around it are not music', () => {
    const info = riff('LIST', hex('49 4E 46 4F 01'));
    const result = read(rmid(info, riff('data', file), info));
    expect(result.tracks).toEqual([oneRead]);
    expect(result.findings).toEqual([]);
  });

  it('a data chunk that is cut is told', () => {
    expect(read(rmid(riff('data', file, file.length + 9))).findings).toEqual([
      `warning chunk-cut {"id":"data","promised":${file.length + 9},"present":${file.length}}`,
    ]);
  });

  test.each([
    ['another RIFF file', riff('RIFF', hex('57 41 56 45'))],
    ['no data chunk', rmid(riff('LIST', hex('49 4E 46 4F')))],
    ['a data chunk that holds no MIDI file', rmid(riff('data', hex('00 00 00 00')))],
    ['only its head', hex('52 49 46 46 00 00 00 00 52 4D 49 44')],
  ])('is refused: %s', (_, bytes) => {
    expect(refusal(bytes)).toBe('midi-not-a-midi-file');
  });
});
