import type { Instrument, Sample, Zone } from '../../src/instruments/instrument.ts';
import { standardHold, type Program, type Start } from '../../src/instruments/program.ts';
import type { Score } from '../../src/midi/score.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { asExported, type PlayOptions } from '../../src/playback/play-copy.ts';
import { playCue } from '../../src/playback/play-cue.ts';
import type { FileUsage } from '../../src/playback/zone-usage.ts';
import { scoreOf } from './oracle-score.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { routedWhole } from './whole-cue.ts';

/** Instruments that no format has described: the engine takes programs from anywhere. */
export const mebibyte = 2 ** 20;

export const start = (zone: number, over: Partial<Start> = {}): Start => ({
  zone,
  articulation: 0,
  event: 'note-on',
  keys: [0, 127],
  velocities: [1, 127],
  gate: 0,
  fades: [],
  doubt: 0,
  hold: 0,
  releaseSeconds: 0,
  ...over,
});

/** One sample per zone, of as many MiB as given. */
export const instrumentOf = (
  program: Pick<Program, 'signals' | 'gates' | 'starts'> & Partial<Pick<Program, 'holds'>>,
  mebibytes: readonly number[],
  over: Partial<Instrument> = {},
): Instrument => {
  const samples = mebibytes.map((size, i): Sample => ({
    name: `sample ${String(i)}`,
    frames: (size * mebibyte) / 2,
    channels: 1,
    width: 2,
    rate: 48_000,
    present: true,
    partner: null,
  }));
  const zones = mebibytes.map((_, i): Zone => ({
    id: i,
    samples: [i],
    group: 0,
    key: null,
    microphone: null,
  }));
  return {
    id: 'hand-made',
    source: 'hand-made',
    sha256: 'digest',
    playedAs: 'single',
    zones,
    samples,
    articulations: [{ name: 'all', switch: null, layers: [] }],
    program: {
      scope: 'copy',
      retriggers: false,
      zones: zones.length,
      articulations: 1,
      holds: [standardHold],
      ...program,
    },
    presetZones: [],
    findings: [],
    ...over,
  };
};

export const usageOf = (
  instrument: Instrument,
  events: readonly OracleEvent[],
  cue = '1m1',
  change: (score: Score) => Score = (score) => score,
  options: PlayOptions = asExported,
): FileUsage => {
  const score = change(scoreOf(events));
  const parts = partsOf(score);
  const file = { cue, path: `${cue}.mid`, sha256: cue, version: null, file: 0 };
  const routed = routedWhole(instrument, score, parts);
  return playCue(file, score, parts, routed, new Map([[instrument.id, instrument]]), options);
};

export const on = (tick: number, key: number, velocity = 100, channel = 0): OracleEvent => ({
  tick,
  kind: 'note-on',
  channel,
  key,
  velocity,
});

export const off = (tick: number, key: number, channel = 0): OracleEvent => ({
  tick,
  kind: 'note-off',
  channel,
  key,
});

export const cc = (tick: number, number: number, value: number, channel = 0): OracleEvent => ({
  tick,
  kind: 'controller',
  channel,
  number,
  value,
});
