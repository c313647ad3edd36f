import type { Division, Score } from '../../src/midi/score.ts';
import { hexOf, type CueFacts } from './raw-cue.ts';

const wordOf = (division: Division): number =>
  division.kind === 'metrical'
    ? division.ticksPerQuarter
    : (0x100 - division.framesPerSecond) * 0x100 + division.ticksPerFrame;

const bytesOf = (value: number): number[] => [
  (value >>> 16) & 0xff,
  (value >>> 8) & 0xff,
  value & 0xff,
];

/** A score as our reader read it, in the words of the comparison. */
export const factsOfScore = (score: Score): CueFacts => ({
  format: score.format,
  division: wordOf(score.timelines[0]!.division),
  tracks: score.tracks.map((track) => {
    const { length, tick, status, data1, data2 } = track.events;
    return {
      names: [track.name, track.instrumentName, track.deviceName],
      ports: track.ports.map(({ from, port }) => `${from}: ${port}`),
      messages: Array.from({ length }, (_, index) => {
        const bytes = [status[index]!, data1[index]!, data2[index]!];
        return `${tick[index]!}: ${hexOf(bytes.slice(0, bytes[0]! >> 5 === 6 ? 2 : 3))}`;
      }),
      sysex: track.sysex.map(({ tick: at, data }) => `${at}: ${hexOf(data)}`),
      end: track.end,
    };
  }),
  times: score.timelines.map(({ tempo, meter, markers, smpteOffset }) => ({
    tempo: tempo.map(
      (change) => `${change.tick}: ${hexOf(bytesOf(change.microsecondsPerQuarter))}`,
    ),
    meter: meter.map(({ tick, beats, unit }) => `${tick}: ${hexOf([beats, Math.log2(unit)])}`),
    markers: markers.map(({ tick, kind, text }) => `${tick}: ${kind === 'marker' ? 6 : 7} ${text}`),
    smpteOffset: smpteOffset === null ? null : hexOf(smpteOffset.split(':').map(Number)),
  })),
});
