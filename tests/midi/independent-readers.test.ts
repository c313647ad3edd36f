import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readMidi } from '../../src/midi/read-midi.ts';
import { readWithJzz } from './jzz-reader.ts';
import { readWithMidiFile, writeWithMidiFile } from './midi-file-reader.ts';
import { factsOfScore } from './our-facts.ts';
import { anyCue } from './random-cue.ts';
import { factsOf, type RawCue } from './raw-cue.ts';

/** Cues made at random, written by midi-file, and read by us and by readers made by others. */
describe('on any cue, event by event, ours agrees with', () => {
  const compare = (
    seed: number,
    escapes: boolean,
    read: (bytes: Uint8Array, cue: RawCue) => RawCue,
  ): void => {
    fc.assert(
      fc.property(anyCue({ escapes }), fc.boolean(), (cue, running) => {
        const bytes = writeWithMidiFile(cue, running);
        const score = readMidi(bytes, 'cue.mid');
        expect(factsOfScore(score)).toEqual(factsOf(read(bytes, cue)));
        const codes = score.findings.map(({ code }) => code);
        expect(codes.filter((code) => code !== 'sysex-escape')).toEqual([]);
      }),
      { seed, numRuns: 400 },
    );
  };

  test('the events that were written', () => {
    compare(11, true, (_, cue) => cue);
  });

  test('midi-file 1.2.4', () => {
    compare(12, true, readWithMidiFile);
  });

  test('jzz-midi-smf 1.9.9', () => {
    // It makes format 1 of a format 0 file with several tracks: its format is not compared there.
    compare(13, true, (bytes, cue) => ({ ...readWithJzz(bytes), format: cue.format }));
  });
});
