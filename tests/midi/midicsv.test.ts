import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { readMidi } from '../../src/midi/read-midi.ts';
import { needs } from '../tools.ts';
import { writeWithMidiFile } from './midi-file-reader.ts';
import { readWithMidicsv } from './midicsv-reader.ts';
import { factsOfScore } from './our-facts.ts';
import { anyCue } from './random-cue.ts';
import { factsOf } from './raw-cue.ts';
import { smf } from './smf-file.ts';

describe.skipIf(!needs('midicsv', 'midicsv'))('midicsv, an independent reader in C', () => {
  it('agrees on cues made at random, event by event', () => {
    fc.assert(
      fc.property(anyCue({ escapes: true }), fc.boolean(), (cue, running) => {
        const bytes = writeWithMidiFile(cue, running);
        expect(factsOfScore(readMidi(bytes, 'cue.mid'))).toEqual(factsOf(readWithMidicsv(bytes)));
      }),
      { seed: 14, numRuns: 60 },
    );
  });

  // Every difference is one that a finding of ours explains.
  test.each([
    ['running status over a meta event', '00 90 3C 40  00 FF 01 00  05 3D 40', 'same'],
    ['running status over a SysEx', '00 90 3C 40  00 F0 02 43 F7  05 3D 40', 'same'],
    ['events behind End of Track', '00 90 3C 40  00 FF 2F 00  05 80 3C 40', 'same'],
    ['a tempo of 0', '00 FF 51 03 00 00 00  00 90 3C 40', 'tempo-zero'],
    ['a unit of 256', '00 FF 58 04 04 08 18 08  00 90 3C 40', 'meter-odd'],
    ['a port of 200', '00 FF 21 01 C8  00 90 3C 40', 'port-odd'],
  ])('%s: %s', (_, body, difference) => {
    const bytes = smf([`${body}  00 FF 2F 00`]);
    const score = readMidi(bytes, 'cue.mid');
    const same =
      JSON.stringify(factsOfScore(score)) === JSON.stringify(factsOf(readWithMidicsv(bytes)));
    if (difference === 'same') expect(same).toBe(true);
    else {
      expect(same).toBe(false);
      expect(score.findings.map(({ code }) => code)).toEqual([difference]);
    }
  });
});
