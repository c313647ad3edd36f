import { writeMidi, type MidiEvent } from 'midi-file';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { report, type ReportOptions } from '../../src/jobs/report.ts';

/**
 * Notes that start nothing plainly, by hand. The horns sound at C4-E4 (60-64), C0 (12) is their switch.
 * Some tracks are tuned two semitones up (MIDI 1.0, registered parameter 2), which an engine may know of
 * or not: their notes have a second reading two keys higher, under the doubt `engine`.
 */
const files = (tracks: readonly Uint8Array[]) => ({
  'keepset.yaml': `cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, per-zone: 100 B, shares: machine, unloads: sample } }
instruments: { horns: { zones: horns.csv, middle-c: C4, player: p, machine: a } }
routes: [{ track: 'Hn*', instrument: horns }]
`,
  'horns.csv': `articulation,switch,keys,velocities,sample,bytes
long,C0,C4-E4,1-127,long.wav,1000
short,C#0,C4-E4,1-127,short.wav,1000
`,
  ...Object.fromEntries(tracks.map((bytes, i) => [`cues/1m${String(i + 1)}.mid`, bytes])),
});

const tuned: readonly MidiEvent[] = (
  [
    [101, 0],
    [100, 2],
    [6, 66],
  ] as const
).map(([controllerType, value]) => ({
  deltaTime: 0,
  ...{ channel: 0, type: 'controller', controllerType, value },
}));

const cue = (keys: readonly number[], before: readonly MidiEvent[] = tuned): Uint8Array =>
  Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: 1, ticksPerBeat: 480 },
      tracks: [
        [
          { deltaTime: 0, meta: true, type: 'trackName', text: 'Hn 1' },
          ...before,
          ...keys.flatMap((noteNumber): MidiEvent[] => [
            { deltaTime: 480, channel: 0, type: 'noteOn', noteNumber, velocity: 80 },
            { deltaTime: 240, channel: 0, type: 'noteOff', noteNumber, velocity: 64 },
          ]),
          { deltaTime: 0, meta: true, type: 'endOfTrack' },
        ],
      ],
    }),
  );

const counted = async (
  tracks: readonly Uint8Array[],
  options: Omit<ReportOptions, 'files'> = {},
) => {
  const { instruments } = await report({ files: new MemoryFiles(files(tracks)), ...options });
  const { notes, otherNotes, articulations } = instruments[0]!;
  return { notes, started: articulations[0]!.notes, ...otherNotes };
};

test('a note that starts something as it stands has no other count, whatever else it may be', async () => {
  // 60 may be 62, which would start something too.
  expect(await counted([cue([12, 60, 60, 61])])).toEqual({
    ...{ notes: 4, started: 3, choosing: 1, doubtful: 0, nothing: 0 },
  });
});

test('a note that starts nothing as it stands is in doubt where another reading starts something', async () => {
  // 58 may be 60; 50 may be 52, which is nothing either; 64 may be 66, which changes nothing.
  expect(await counted([cue([12, 58, 50, 64, 58])])).toEqual({
    ...{ notes: 5, started: 1, choosing: 1, doubtful: 2, nothing: 1 },
  });
});

test('so do many notes that are alike, of which only the first have a place', async () => {
  expect(await counted([cue([12, ...Array.from({ length: 7 }, () => 58), 60])])).toEqual({
    ...{ notes: 9, started: 1, choosing: 1, doubtful: 7, nothing: 0 },
  });
});

test('where the doubt is settled they start nothing', async () => {
  expect(await counted([cue([12, 58, 60])], { settle: { engine: 'plain' } })).toEqual({
    ...{ notes: 3, started: 1, choosing: 1, doubtful: 0, nothing: 1 },
  });
});

test('a cue says nothing of the notes in the same places of another', async () => {
  expect(await counted([cue([12, 58]), cue([12, 58], [])])).toEqual({
    ...{ notes: 4, started: 0, choosing: 2, doubtful: 1, nothing: 1 },
  });
});
