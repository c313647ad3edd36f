import type { Instrument } from '../../src/instruments/instrument.ts';
import { zoneDoubts } from '../../src/keep/reach.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import type { Score } from '../../src/midi/score.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { playCue } from '../../src/playback/play-cue.ts';
import type { CopyToPrime, LaneGroup, PrimerTrack, Synthesis } from '../../src/primer/lanes.ts';
import { writePrimer } from '../../src/primer/score/write-primer.ts';
import { synthesise } from '../../src/primer/synthesis/synthesise.ts';
import { unchanged, type Transform } from '../../src/template/route.ts';
import { plain, type DoubtSet } from '../../src/terms/doubt.ts';

export interface CopyOptions {
  /** Bits; every channel unless it says otherwise. */
  readonly channels?: number;
  readonly transform?: Transform;
  readonly articulation?: string | null;
  readonly excluded?: DoubtSet;
  readonly track?: number;
  readonly name?: string;
}

/** A copy of an instrument on one track that wants all it keeps. */
export const copyOf = (
  instrument: Instrument,
  kept: Iterable<number>,
  options: CopyOptions = {},
): CopyToPrime => {
  const { channels = 0xffff, transform = unchanged, track = 0 } = options;
  const wanted = [...new Set(kept)].sort((a, b) => a - b);
  const mask = new Uint8Array(instrument.zones.length);
  for (const zone of wanted) mask[zone] = 1;
  return {
    instrument,
    machine: 'a',
    copy: {
      name: options.name ?? 'copy',
      instrument: instrument.id,
      articulation: options.articulation ?? null,
      printed: false,
      sources: [{ track, port: 0, channels, transform }],
    },
    wanted,
    kept: mask,
    excluded: options.excluded ?? plain,
  };
};

export const groupOf = (...copies: readonly CopyToPrime[]): LaneGroup => ({
  machine: 'a',
  copies,
});

const track = (name: string): PrimerTrack => ({
  ...{ name, instrumentName: null, deviceName: null, port: 0 },
});

/** What was written, read back from its bytes. */
export interface Written {
  readonly synthesis: Synthesis;
  readonly score: Score;
  readonly seconds: number;
  /** By copy and zone, the minimal doubts under which the file starts it, by the engine. */
  readonly doubts: readonly (readonly (readonly DoubtSet[])[])[];
}

export const written = (group: LaneGroup, pace = 8, ticksPerQuarter = 480): Written => {
  const synthesis = synthesise(group);
  const tracks = group.copies.map(({ copy }) => copy.sources[0]!.track);
  const { bytes, seconds } = writePrimer({
    format: 1,
    tracks: Array.from({ length: Math.max(...tracks) + 1 }, (_, i) => track(`Track ${String(i)}`)),
    ticksPerQuarter,
    text: 'primer',
    syntheses: [synthesis],
    excerpts: [],
    pace,
  });
  const score = readMidi(bytes, 'primer.mid');
  const doubts = group.copies.map(({ instrument, copy }) => {
    const file = { cue: 'p', path: 'primer.mid', sha256: '', version: null, file: 0 };
    const usage = playCue(
      file,
      score,
      partsOf(score),
      { copies: [copy], tainted: [] },
      new Map([[instrument.id, instrument]]),
      asExported,
    );
    return zoneDoubts(instrument, [usage]);
  });
  return { synthesis, score, seconds, doubts };
};
