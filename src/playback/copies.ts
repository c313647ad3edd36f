import type { Instrument } from '../instruments/instrument.ts';
import type { Part } from '../midi/parts.ts';
import type { Score, Track } from '../midi/score.ts';
import { mergeTracks, type CopyStream } from './copy-stream.ts';
import { readsOf } from './reads.ts';

/**
 * The copies of an instrument that a cue drives when no template says otherwise (design, section 5).
 * A bank played as a bank is one copy per port, its tracks merged; any other instrument gives each
 * track its own copy, with its own state.
 *
 * @param file which of the cue's files, from 0: ports of different files are different ports
 */
export const copiesOf = (
  score: Score,
  parts: readonly Part[],
  instrument: Instrument,
  file: number,
): readonly CopyStream[] =>
  instrument.playedAs === 'bank'
    ? bankCopies(score, parts, instrument, file)
    : trackCopies(score, parts, instrument);

const bankCopies = (
  score: Score,
  parts: readonly Part[],
  { program }: Instrument,
  file: number,
): readonly CopyStream[] => {
  const reads = readsOf(program);
  return score.timelines.flatMap((timeline, number) => {
    const tracks = score.tracks.filter((track) => track.timeline === number);
    const used = parts.filter((part) => score.tracks[part.track]!.timeline === number);
    const ports = new Set(used.map(({ port }) => port));
    if (ports.size === 0) ports.add(0);
    return [...ports]
      .sort((a, b) => a - b)
      .map((port) =>
        mergeTracks(
          copyName(['port', port + 1], ['sequence', number], ['file', file]),
          timeline,
          tracks.map((track) => ({ track, port })),
          reads,
        ),
      );
  });
};

/** `port 2`; the further sequences of a file and files of a cue have copies of their own. */
const copyName = (
  first: readonly [string, number],
  ...others: readonly (readonly [string, number])[]
): string =>
  [first, ...others.filter(([, n]) => n > 0).map(([word, n]) => [word, n + 1] as const)]
    .map(([word, n]) => `${word} ${String(n)}`)
    .join(' ');

const trackCopies = (
  score: Score,
  parts: readonly Part[],
  { program }: Instrument,
): readonly CopyStream[] => {
  const reads = readsOf(program);
  return score.tracks
    .filter((track) => track.damage !== null || parts.some((part) => part.track === track.index))
    .map((track) =>
      mergeTracks(
        trackName(score, track),
        score.timelines[track.timeline]!,
        score.tracks
          .filter((other) => other.timeline === track.timeline)
          .map((other) => ({ track: other, port: null, sysexOnly: other !== track })),
        reads,
      ),
    );
};

/** Names a track's copy across cues: by its name where that is unique, else by its number too. */
const trackName = (score: Score, { name, index }: Track): string => {
  if (name === null) return `track ${String(index)}`;
  const namesakes = score.tracks.filter((other) => other.name === name).length;
  return namesakes === 1 ? name : `${name} (track ${String(index)})`;
};
