import { describe, expect, it, test } from 'vitest';
import { splitSysEx, wholeSysEx } from '../../reference/smf-1.0-fragments.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { hex } from './hex.ts';
import { hexOf, listEvents, listFindings, listSysex } from './listing.ts';
import { smf } from './smf-file.ts';

const readOne = (body: string) => {
  const score = readMidi(smf([`${body}  00 FF 2F 00`]), 'cue.mid');
  const [track] = score.tracks;
  if (track === undefined) throw new Error('no track');
  return {
    events: listEvents(track.events),
    sysex: listSysex(track.sysex),
    findings: listFindings(score),
    damage: track.damage,
  };
};

describe('system exclusive messages', () => {
  it('RP-001, "Track Chunks": in one packet', () => {
    const { sysex, findings } = readOne(`00 ${wholeSysEx.storedHex}`);
    expect(sysex).toEqual([`0 <0 0: ${hexOf(hex(wholeSysEx.sentHex).slice(1, -1))}`]);
    expect(findings).toEqual([]);
  });

  it('RP-001, "Track Chunks": in three packets; it is there when the last one is', () => {
    const sent = splitSysEx.packets.map(({ sentHex }) => sentHex).join(' ');
    const { sysex, findings } = readOne(`00 ${splitSysEx.storedHex}`);
    expect(sysex).toEqual([`300 <0 0: ${hexOf(hex(sent).slice(1, -1))}`]);
    expect(findings).toEqual([]);
  });

  test.each([
    [
      'stands between events, on the port of its track',
      `00 90 3C 40
       00 FF 21 01 05
       10 F0 05 7E 7F 09 01 F7
       00 80 3C 40`,
      ['0 90 3C 40', '16 80 3C 40'],
      ['16 <1 5: 7E 7F 09 01'],
    ],
    [
      'goes on over a meta event',
      '00 F0 02 43 12  00 FF 01 00  00 F7 02 07 F7',
      [],
      ['0 <0 0: 43 12 07'],
    ],
    ['without F7 at the end of the track', '00 F0 04 7E 7F 09 01', [], ['0 <0 0: 7E 7F 09 01']],
    [
      'without F7 before a note: the next status ends it (MIDI 1.0, "System Exclusive")',
      '00 F0 04 7E 7F 09 01  05 90 3C 40',
      ['5 90 3C 40'],
      ['0 <0 0: 7E 7F 09 01'],
    ],
    [
      'without F7 before another one',
      '00 F0 02 43 01  05 F0 03 43 02 F7',
      [],
      ['0 <0 0: 43 01', '5 <0 0: 43 02'],
    ],
    ['two in one packet', '00 F0 06 43 01 F7 F0 43 02', [], ['0 <0 0: 43 01', '0 <0 0: 43 02']],
    ['real-time bytes inside are not its data', '00 F0 05 43 F8 01 FE F7', [], ['0 <0 0: 43 01']],
    ['empty ones are none', '00 F0 01 F7  00 F0 00', [], []],
  ])('%s', (_, body, events, sysex) => {
    expect(readOne(body)).toEqual({ events, sysex, findings: [], damage: null });
  });

  it('long ones are whole: 100 000 bytes', () => {
    const score = readMidi(
      smf([`00 F0 86 8D 21 ${'5A'.repeat(100_000)} F7  00 FF 2F 00`]),
      'cue.mid',
    );
    expect(score.tracks[0]?.sysex[0]?.data).toEqual(new Uint8Array(100_000).fill(0x5a));
  });

  it('data is a copy: the file may change afterwards', () => {
    const bytes = smf(['00 F0 03 43 01 F7  00 FF 2F 00']);
    const score = readMidi(bytes, 'cue.mid');
    bytes.fill(0);
    expect(score.tracks[0]?.sysex[0]?.data).toEqual(hex('43 01'));
  });
});

describe('F7 packets outside a message', () => {
  test.each([
    ['a note in it is an event', '05 F7 03 90 3C 40', ['5 90 3C 40'], []],
    [
      'several messages',
      '00 F7 08 90 3C 40 C1 05 80 3C 40',
      ['0 90 3C 40', '0 C1 05', '0 80 3C 40'],
      [],
    ],
    ['running status inside', '00 F7 05 90 3C 40 3E 41', ['0 90 3C 40', '0 90 3E 41'], []],
    ['an incomplete message is none', '00 F7 02 90 3C', [], []],
    ['it does not go on in the next packet', '00 F7 01 90  00 F7 02 3C 40', [], []],
    ['system messages are ignored, with their data', '00 F7 06 F3 05 F2 01 02 F8', [], []],
    ['a real-time byte inside a message', '00 F7 04 90 F8 3C 40', ['0 90 3C 40'], []],
    ['a whole system exclusive message', '00 F7 04 F0 43 01 F7', [], ['0 <0 0: 43 01']],
    [
      'a note and a message: each in its place',
      '00 F7 07 90 3C 40 F0 43 01 F7',
      ['0 90 3C 40'],
      ['0 <1 0: 43 01'],
    ],
  ])('%s', (_, body, events, sysex) => {
    const packets = body.split('F7 0').length - 1;
    expect(readOne(body)).toEqual({
      events,
      sysex,
      findings: [`note sysex-escape {"times":${packets}}`],
      damage: null,
    });
  });

  it('a channel message behind the end of a system exclusive message counts as well', () => {
    expect(readOne('00 F0 06 43 01 F7 90 3C 40')).toEqual({
      events: ['0 90 3C 40'],
      sysex: ['0 <0 0: 43 01'],
      findings: ['note sysex-escape {"times":1}'],
      damage: null,
    });
  });

  it('an unfinished message and a note before the packet: the packet stands alone', () => {
    const { events, sysex, findings } = readOne('00 F0 02 43 01  00 90 3C 40  00 F7 03 80 3C 40');
    expect(events).toEqual(['0 90 3C 40', '0 80 3C 40']);
    expect(sysex).toEqual(['0 <0 0: 43 01']);
    expect(findings).toEqual(['note sysex-escape {"times":1}']);
  });

  it('leaves the running status of the track alone', () => {
    const { events } = readOne('00 90 3C 40  00 F7 03 B0 07 64  00 3C 00');
    expect(events).toEqual(['0 90 3C 40', '0 B0 07 64', '0 90 3C 00']);
  });

  it('more events than the columns had room for', () => {
    // One status and 299 data bytes of channel pressure: an event for every byte.
    const { events } = readOne(`00 F7 82 2C D0 ${'11'.repeat(299)}`);
    expect(events).toEqual(Array.from({ length: 299 }, () => '0 D0 11'));
  });

  it('the finding is where the first one is', () => {
    const score = readMidi(smf(['83 60 F7 01 F8  00 F7 01 F8  00 FF 2F 00']), 'cue.mid');
    expect(score.findings).toEqual([
      {
        code: 'sysex-escape',
        severity: 'note',
        file: 'cue.mid',
        at: { track: 0, tick: 480, bar: 1, beat: 2, byte: 26 },
        args: { times: 2 },
      },
    ]);
  });
});
