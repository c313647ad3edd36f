import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { format0Hex, format1Hex } from '../../reference/smf-1.0.ts';
import { hex } from '../midi/hex.ts';
import { writeWithMidiFile } from '../midi/midi-file-reader.ts';
import { anyCue } from '../midi/random-cue.ts';
import { chunk, header, join } from '../midi/smf-file.ts';
import { faultsOf, readOrRefuse } from './midi-score.ts';

const check = (bytes: Uint8Array): void => {
  const score = readOrRefuse(bytes);
  const faults = score === null ? [] : faultsOf(score, bytes);
  if (faults.length > 0) expect(faults).toEqual([]);
};

describe('any bytes are refused, or read to a score that holds together', () => {
  test('bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 300 }), check), { seed: 21, numRuns: 1000 });
  });

  test('bytes behind a header', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => check(join(header(), bytes))),
      { seed: 22, numRuns: 1000 },
    );
  });

  /** Bytes that events are made of come more often than others. */
  const likely = fc.oneof(
    fc.nat(255),
    fc.nat(15),
    fc.constantFrom(0x00, 0x90, 0x80, 0xb0, 0xc0, 0xe0, 0xf0, 0xf7, 0xff, 0x2f, 0x21, 0x51, 0x58),
  );

  test('bytes of a track', () => {
    fc.assert(
      fc.property(fc.array(likely, { maxLength: 300 }), fc.nat(400), (values, length) => {
        check(join(header(), chunk('MTrk', Uint8Array.from(values), length)));
      }),
      { seed: 23, numRuns: 2000 },
    );
  });
});

describe('well-made cues, changed', () => {
  const change = fc.tuple(
    fc.nat(),
    fc.constantFrom('set', 'flip', 'drop', 'insert', 'cut', 'repeat'),
    fc.nat(255),
  );

  const changed = (bytes: Uint8Array, changes: readonly (readonly [number, string, number])[]) =>
    changes.reduce<number[]>(
      (all, [where, how, value]) => {
        const at = all.length === 0 ? 0 : where % all.length;
        const [front, back] = [all.slice(0, at), all.slice(at)];
        switch (how) {
          case 'set':
            return [...front, value, ...back.slice(1)];
          case 'flip':
            return [...front, (back[0] ?? 0) ^ (1 << (value % 8)), ...back.slice(1)];
          case 'drop':
            return [...front, ...back.slice(1 + (value % 4))];
          case 'insert':
            return [...front, value, ...back];
          case 'cut':
            return front;
          default:
            return [...front, ...back.slice(0, value), ...back];
        }
      },
      [...bytes],
    );

  test('a few bytes', () => {
    fc.assert(
      fc.property(
        anyCue({ escapes: true }),
        fc.boolean(),
        fc.array(change, { minLength: 1, maxLength: 4 }),
        (cue, running, changes) =>
          check(Uint8Array.from(changed(writeWithMidiFile(cue, running), changes))),
      ),
      { seed: 24, numRuns: 1500 },
    );
  });

  test.each([
    ['format 0', format0Hex],
    ['format 1', format1Hex],
  ])('RP-001, %s example: every byte changed, and cut everywhere', (_, text) => {
    const original = hex(text);
    for (let at = 0; at < original.length; at += 1) {
      check(original.slice(0, at));
      const bytes = original.slice();
      for (let value = at % 5; value < 256; value += 5) {
        bytes[at] = value;
        check(bytes);
      }
    }
  });

  it('a cut never goes unseen: some track is damaged or missing, or only an end mark is gone', () => {
    const original = hex(format1Hex);
    for (let at = 14; at < original.length; at += 1) {
      const score = readOrRefuse(original.slice(0, at))!;
      const broken = score.tracks.filter(({ damage }) => damage !== null).length;
      expect(broken + score.missingTracks).toBeGreaterThan(0);
    }
  });
});

describe('files made to take memory or time', () => {
  const size = 300_000;
  const fill = (pattern: string): Uint8Array => {
    const unit = hex(pattern);
    const data = new Uint8Array(size);
    for (let at = 0; at < size; at += 1) data[at] = unit[at % unit.length]!;
    return join(header(), chunk('MTrk', data));
  };

  test.each([
    ['zeros', '00'],
    ['one-byte events', '00 D0 11'],
    ['running channel pressure', '00 11'],
    ['empty texts', '00 FF 06 00'],
    ['tempo changes', '00 FF 51 03 00 00 01'],
    ['metas of a wrong length', '00 FF 51 00 00 FF 58 00 00 FF 59 00'],
    ['ports that alternate', '00 FF 21 01 01 00 90 3C 40 00 FF 21 01 02 00 90 3C 40'],
    ['empty SysEx', '00 F0 00'],
    ['short SysEx', '00 F0 02 43 F7'],
    ['escapes', '00 F7 01 F8'],
    ['the largest delta-times', 'FF FF FF 7F D0 11'],
    ['meters at every tick', '01 FF 58 04 01 07 18 08'],
  ])('300 000 bytes of %s', (_, pattern) => {
    check(fill(pattern));
  });

  it('300 000 bytes of escaped running status: an event a byte', () => {
    const data = hex('00 F7 92 A7 60 D0'); // a packet of 300 000 bytes
    const track = new Uint8Array(data.length + size - 1).fill(0x11);
    track.set(data);
    const bytes = join(header(), chunk('MTrk', track));
    const score = readOrRefuse(bytes)!;
    expect(score.tracks[0]!.events.length).toBe(size - 1);
    expect(faultsOf(score, bytes)).toEqual([]);
  });

  it('300 000 bytes of chunk heads', () => {
    for (const id of ['MTrk', 'XFIH', 'MThd']) {
      const head = chunk(id, new Uint8Array(0));
      const bytes = new Uint8Array(size);
      bytes.set(header());
      for (let at = 14; at + 8 <= size; at += 8) bytes.set(head, at);
      const score = readOrRefuse(bytes)!;
      expect(score.tracks.length).toBe(id === 'MTrk' ? (size - 14) >> 3 : 0);
      expect(score.findings.length).toBeLessThan(size / 3);
    }
  });
});
