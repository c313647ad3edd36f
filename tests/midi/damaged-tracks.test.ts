import { describe, expect, it, test } from 'vitest';
import { readMidi } from '../../src/midi/read-midi.ts';
import { isDamaged } from '../../src/midi/score.ts';
import { hex } from './hex.ts';
import { read } from './listing.ts';
import { chunk, header, join, smf } from './smf-file.ts';

/** Every file below has a header of 14 bytes and a chunk head of 8: the track begins here. */
const start = 22;

/** One note, so that what was read before the damage can be told from what was not. */
const note = '00 90 3C 40';

describe('a track that breaks off', () => {
  test.each([
    // name, track, bytes of it that were read, finding
    ['meta length of five bytes', `${note}  00 FF 01 8F FF FF FF 78`, 5, 'track-quantity'],
    ['SysEx length of five bytes', `${note}  00 F0 8F FF FF FF 7F`, 5, 'track-quantity'],
    ['delta-time of five bytes', `${note}  8F FF FF FF 7F  90 40 40`, 4, 'track-quantity'],
    ['delta-time of five bytes, small', `${note}  81 80 80 80 00  90 40 40`, 4, 'track-quantity'],
    ['delta-time of six bytes, zero', `${note}  80 80 80 80 80 00  90 40 40`, 4, 'track-quantity'],
    ['end behind the key', `${note}  00 90 40`, 6, 'track-truncated'],
    ['end behind the status', `${note}  00 90`, 6, 'track-truncated'],
    ['end behind the delta-time', `${note}  00`, 5, 'track-truncated'],
    ['end inside the delta-time', `${note}  81`, 4, 'track-truncated'],
    ['end behind FF', `${note}  00 FF`, 5, 'track-truncated'],
    ['end behind the meta type', `${note}  00 FF 01`, 5, 'track-truncated'],
    ['end inside the meta length', `${note}  00 FF 01 81`, 5, 'track-truncated'],
    ['meta length past the end', `${note}  00 FF 01 05 41 42`, 5, 'track-truncated'],
    ['SysEx length past the end', `${note}  00 F0 05 7E 7F`, 5, 'track-truncated'],
    ['end behind a controller number', `${note}  00 B0 07`, 6, 'track-truncated'],
    ['end behind a program status', `${note}  00 C0`, 6, 'track-truncated'],
  ])('%s', (_, text, read0, code) => {
    const bytes = smf([text]);
    expect(read(bytes)).toEqual({
      tracks: [['0 90 3C 40']],
      damage: [{ tick: 0, byte: start + read0 }],
      missing: 0,
      findings: [`warning ${code}`],
    });
  });

  test.each([
    ['velocity of 192', '00 90 3C C0', 3, 'track-data-byte {"value":192}'],
    ['key of 192', '00 90 C0 40', 2, 'track-data-byte {"value":192}'],
    ['key of 255 and no velocity', '00 90 FF', 2, 'track-data-byte {"value":255}'],
    ['program of 128', '00 C0 80', 2, 'track-data-byte {"value":128}'],
    ['running status, velocity of 128', '00 90 3C 40 00 40 80', 6, 'track-data-byte {"value":128}'],
    ['data without a status', '00 3C 40', 1, 'track-status {"status":60}'],
    ...[0xf1, 0xf2, 0xf3, 0xf4, 0xf5, 0xf6, 0xf8, 0xf9, 0xfa, 0xfb, 0xfc, 0xfd, 0xfe].map(
      (status): [string, string, number, string] => [
        `status ${status.toString(16)}`,
        `00 ${status.toString(16)} 00 00`,
        1,
        `track-status {"status":${status}}`,
      ],
    ),
  ])('%s', (_, text, byte, finding) => {
    const result = read(smf([`${text}  00 FF 2F 00`]));
    expect(result.damage).toEqual([{ tick: 0, byte: start + byte }]);
    expect(result.findings).toEqual([`warning ${finding}`]);
  });

  it('leaves the tracks before and behind it whole, and says where it is', () => {
    const bytes = smf([
      '00 90 3C 40  60 80 3C 40  00 FF 2F 00',
      `00 FF 58 04 03 02 18 08        # 3/4
       8F 00 90 3C 40                 # tick 1920: bar 2 of 3/4 at 480 ticks, beat 2
       60 C0 FF                       # stops here
       00 90 30 40`,
      '00 91 40 40  60 81 40 40  00 FF 2F 00',
    ]);
    const score = readMidi(bytes, 'cues/harbour.mid');
    expect(read(bytes).tracks).toEqual([
      ['0 90 3C 40', '96 80 3C 40'],
      ['1920 90 3C 40'],
      ['0 91 40 40', '96 81 40 40'],
    ]);
    expect(isDamaged(score)).toBe(true);
    expect(score.findings).toEqual([
      {
        code: 'track-data-byte',
        severity: 'warning',
        file: 'cues/harbour.mid',
        at: { track: 1, tick: 1920, bar: 2, beat: 2, byte: 14 + 8 + 12 + 8 + 15 },
        args: { value: 0xff },
      },
    ]);
    expect(score.tracks[1]?.end).toBe(1920);
  });

  it('a file of 34 bytes that makes another reader run for ever is read', () => {
    const bytes = hex(`
      4D 54 68 64 00 00 00 06 00 00 00 01 00 60
      4D 54 72 6B 00 00 00 0C
      00 FF 01 8F FF FF FF 78        # a length of five bytes
      00 FF 2F 00
    `);
    expect(bytes.length).toBe(34);
    expect(read(bytes).damage).toEqual([{ tick: 0, byte: 23 }]);
  });
});

describe('a chunk that promises more than the file holds', () => {
  const cut = (text: string): Uint8Array =>
    join(header(), chunk('MTrk', hex(text), hex(text).length + 10));

  test.each([
    ['ends in an event', '00 90 3C 40  00 90 40', 28, 7],
    ['ends between events, without End of Track', '00 90 3C 40', 26, 4],
  ])('is damaged when the file %s', (_, text, byte, present) => {
    const result = read(cut(text));
    expect(result.tracks).toEqual([['0 90 3C 40']]);
    expect(result.damage).toEqual([{ tick: 0, byte }]);
    expect(result.findings).toEqual([
      'warning track-truncated',
      `warning chunk-cut {"id":"MTrk","promised":${present + 10},"present":${present}}`,
    ]);
  });

  it('is whole when End of Track was read', () => {
    const result = read(cut('00 90 3C 40  00 FF 2F 00'));
    expect(result.damage).toEqual([null]);
    expect(result.findings).toEqual(['warning chunk-cut {"id":"MTrk","promised":18,"present":8}']);
  });

  it('a length of FFFFFFF8 takes the rest of the file, and what it hides is missing', () => {
    const first = chunk('MTrk', hex('00 90 3C 40  00 FF 2F 00'), 0xffff_fff8);
    const rest = chunk('MTrk', hex('00 90 40 40  00 FF 2F 00'));
    expect(read(join(header({ count: 3 }), first, rest, rest))).toEqual({
      tracks: [['0 90 3C 40']],
      damage: [null],
      missing: 2,
      findings: [
        'warning track-after-end {"bytes":32}',
        'warning chunk-cut {"id":"MTrk","promised":4294967288,"present":40}',
        'warning tracks-missing {"promised":3,"present":1}',
      ],
    });
  });
});

describe('the end of a track', () => {
  test.each([
    ['no End of Track', '00 90 3C 40', ['note track-no-end']],
    ['zeros behind it', '00 90 3C 40 00 FF 2F 00  00 00', ['warning track-after-end {"bytes":2}']],
    [
      'notes behind it',
      '00 90 3C 40 00 FF 2F 00  00 80 3C 40',
      ['warning track-after-end {"bytes":4}'],
    ],
    [
      'nonsense behind it',
      '00 90 3C 40 00 FF 2F 00  F4 F4',
      ['warning track-after-end {"bytes":2}'],
    ],
    [
      'an End of Track with data',
      '00 90 3C 40 00 FF 2F 01 00',
      ['note meta-length {"type":47,"length":1,"expected":0}'],
    ],
  ])('%s', (_, text, findings) => {
    expect(read(smf([text]))).toEqual({
      tracks: [['0 90 3C 40']],
      damage: [null],
      missing: 0,
      findings,
    });
  });

  it('no End of Track before another track is a note', () => {
    expect(read(smf(['00 90 3C 40', '00 FF 2F 00'])).findings).toEqual(['note track-no-end']);
  });

  it('no End of Track, and what follows is no chunk: the length is wrong, the track damaged', () => {
    const bytes = join(header(), chunk('MTrk', hex('00 90 3C 40  00 90 40 40  00 FF 2F 00'), 4));
    const result = read(bytes);
    expect(result.damage).toEqual([{ tick: 0, byte: 26 }]);
    expect(result.findings).toContain('warning track-truncated');
  });

  it('the tick of End of Track is the end', () => {
    expect(readMidi(smf(['00 90 3C 40 83 60 FF 2F 00']), 'cue.mid').tracks[0]?.end).toBe(480);
  });
});

describe('running status', () => {
  it('is carried over a meta event, with one finding for the track (as real files mean it)', () => {
    const score = readMidi(
      smf([
        `00 92 2D 64
         81 70 FF 01 00
         00 3D 64                  # carried over
         00 39 64                  # ordinary running status
         10 FF 06 01 41
         00 2D 00                  # carried over
         00 FF 2F 00`,
      ]),
      'cue.mid',
    );
    expect(score.findings).toEqual([
      {
        code: 'running-status-after-meta',
        severity: 'note',
        file: 'cue.mid',
        at: { track: 0, tick: 240, bar: 1, beat: 1.5, byte: 32 },
        args: { times: 2 },
      },
    ]);
    expect(score.tracks[0]?.damage).toBeNull();
    expect(read(smf(['00 92 2D 64 00 FF 01 00 05 3D 64 00 FF 2F 00'])).tracks).toEqual([
      ['0 92 2D 64', '5 92 3D 64'],
    ]);
  });

  it('is carried over a SysEx', () => {
    const result = read(smf(['00 90 3C 40  00 F0 03 7E 01 F7  00 3C 00  00 FF 2F 00']));
    expect(result.tracks).toEqual([['0 90 3C 40', '0 90 3C 00']]);
    expect(result.findings).toEqual(['note running-status-after-meta {"times":1}']);
  });

  it('does not reach the next track', () => {
    const result = read(smf(['00 90 3C 40 00 FF 2F 00', '00 3C 40 00 FF 2F 00']));
    expect(result.damage).toEqual([null, { tick: 0, byte: 39 }]);
  });

  it('cannot be carried over a meta event where there is none', () => {
    const result = read(smf(['00 FF 01 00  00 3C 40  00 FF 2F 00']));
    expect(result.findings).toEqual(['warning track-status {"status":60}']);
  });

  it('a new status behind a meta event needs no finding', () => {
    const result = read(smf(['00 90 3C 40  00 FF 01 00  00 90 3C 00  00 3C 40  00 FF 2F 00']));
    expect(result.findings).toEqual([]);
    expect(result.tracks[0]).toHaveLength(3);
  });
});
