import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eventsOf, partsOf, type Part } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import type { Score, Track } from '../../src/midi/score.ts';
import { smf } from './smf-file.ts';

const readTracks = (tracks: readonly string[], format = 1): Score =>
  readMidi(smf(tracks, { format }), 'cue.mid');

const byte = (value: number): string => value.toString(16).padStart(2, '0');

const eventLists = (score: Score): number[][] =>
  partsOf(score).map((part) => [...eventsOf(score, part)]);

describe('parts', () => {
  it('track x port x channel, in this order', () => {
    const score = readTracks([
      `00 FF 21 01 01
       00 93 3C 40  10 90 3C 40  10 93 3C 00     # port 1: channels 4, 1, 4
       00 FF 21 01 00
       10 93 40 40  10 B3 07 64                  # port 0: channel 4
       00 FF 2F 00`,
      '00 FF 2F 00',
      '00 93 3C 40  00 FF 2F 00',
    ]);
    expect(partsOf(score)).toEqual([
      { track: 0, port: 0, channel: 3, events: 2, notes: 1, firstTick: 48, lastTick: 64 },
      { track: 0, port: 1, channel: 0, events: 1, notes: 1, firstTick: 16, lastTick: 16 },
      { track: 0, port: 1, channel: 3, events: 2, notes: 1, firstTick: 0, lastTick: 32 },
      { track: 2, port: 0, channel: 3, events: 1, notes: 1, firstTick: 0, lastTick: 0 },
    ]);
    expect(eventLists(score)).toEqual([[3, 4], [1], [0, 2], [0]]);
  });

  it('a track that goes back to a port goes on with its part', () => {
    const score = readTracks([
      '00 90 3C 40  00 FF 21 01 01  00 90 3D 40  00 FF 21 01 00  00 90 3E 40  00 FF 2F 00',
    ]);
    expect(eventLists(score)).toEqual([[0, 2], [1]]);
  });

  it('counts note-ons; velocity 0 is a note-off', () => {
    const score = readTracks([
      '00 90 3C 01  00 90 3C 00  00 80 3C 40  00 A0 3C 40  00 E0 00 40  00 FF 2F 00',
    ]);
    expect(partsOf(score)).toMatchObject([{ events: 5, notes: 1 }]);
  });

  it('a part without notes is listed', () => {
    expect(partsOf(readTracks(['00 B0 07 64  00 FF 2F 00']))).toMatchObject([{ notes: 0 }]);
  });

  it('format 0 splits by channel', () => {
    const score = readTracks(['00 90 3C 40  00 91 3C 40  00 92 3C 40  00 FF 2F 00'], 0);
    expect(partsOf(score).map(({ channel }) => channel)).toEqual([0, 1, 2]);
  });

  it('a part of another score has no events', () => {
    const part: Part = { ...partsOf(readTracks(['00 90 3C 40 00 FF 2F 00']))[0]!, track: 7 };
    expect([...eventsOf(readTracks(['00 FF 2F 00']), part)]).toEqual([]);
  });

  it('48 ports of 16 channels in one cue are 768 parts (common practice)', () => {
    const tracks = Array.from({ length: 768 }, (_, index) => {
      const status = byte(0x90 + (index % 16));
      return `00 FF 21 01 ${byte(Math.floor(index / 16))}  00 ${status} 3C 40  60 ${status} 3C 00  00 FF 2F 00`;
    });
    const parts = partsOf(readTracks(tracks));
    expect(parts.map(({ port, channel }) => port * 16 + channel)).toEqual(
      Array.from({ length: 768 }, (_, index) => index),
    );
    expect(parts.every((part) => part.notes === 1 && part.events === 2)).toBe(true);
  });

  it('the same 768 parts in a single track', () => {
    const body = Array.from({ length: 768 }, (_, index) => {
      const port = `00 FF 21 01 ${byte(Math.floor(index / 16))}`;
      return `${index % 16 === 0 ? port : ''} 00 ${byte(0x90 + (index % 16))} 3C 40`;
    }).join(' ');
    const score = readTracks([`${body} 00 FF 2F 00`]);
    expect(partsOf(score)).toHaveLength(768);
    expect(eventLists(score)).toEqual(Array.from({ length: 768 }, (_, index) => [index]));
  });
});

/** What a part is, said as simply as can be. */
const naiveParts = (track: Track): Map<string, number[]> => {
  const lists = new Map<string, number[]>();
  for (let event = 0; event < track.events.length; event += 1) {
    const port = track.ports.findLast((run) => run.from <= event)?.port ?? 0;
    const key = `${port} ${(track.events.status[event] ?? 0) & 0xf}`;
    lists.set(key, [...(lists.get(key) ?? []), event]);
  }
  return lists;
};

describe('any track', () => {
  it('every event is in exactly one part, where a naive count puts it', () => {
    const message = fc.tuple(fc.constantFrom(0x80, 0x90, 0xb0), fc.nat(15), fc.nat(127));
    const port = fc.nat(127);
    const step = fc.oneof(
      { weight: 4, arbitrary: message.map(([kind, channel, data]) => [kind + channel, data]) },
      { weight: 1, arbitrary: port.map((value) => [value]) },
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 60 }), (steps) => {
        const body = steps
          .map(([first, data]) =>
            data === undefined
              ? `00 FF 21 01 ${byte(first ?? 0)}`
              : `01 ${byte(first ?? 0)} 3C ${byte(data)}`,
          )
          .join(' ');
        const score = readTracks([`${body} 00 FF 2F 00`]);
        const track = score.tracks[0]!;
        const parts = partsOf(score);
        expect(
          new Map(
            parts.map((part) => [`${part.port} ${part.channel}`, [...eventsOf(score, part)]]),
          ),
        ).toEqual(naiveParts(track));
        for (const part of parts) {
          const events = [...eventsOf(score, part)];
          const { status, data2, tick } = track.events;
          expect(part).toMatchObject({
            events: events.length,
            notes: events.filter((event) => status[event]! >> 4 === 9 && data2[event] !== 0).length,
            firstTick: tick[events[0]!],
            lastTick: tick[events.at(-1)!],
          });
        }
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});
