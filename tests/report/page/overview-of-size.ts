import type { Overview } from '../../../src/overview/overview.ts';
import type {
  OverviewArticulation,
  OverviewInstrument,
} from '../../../src/overview/overview-instrument.ts';
import type { OverviewCell } from '../../../src/overview/overview-map.ts';

/** How large an overview is. */
export interface Size {
  readonly instruments: number;
  readonly articulations: number;
  readonly rows: number;
  readonly cells: number;
  readonly cues: number;
  /** What everything is called that takes its name from a file. */
  readonly name?: string;
}

const MiB = 2 ** 20;

const cell = (i: number): OverviewCell => {
  const lo = 24 + 3 * i;
  const state = (i >> 1) % 4;
  return [lo, lo + 2, state, 6, state === 3 ? 0 : 6, state === 3 ? -1 : state, 0, 0];
};

const articulation = (name: string, { rows, cells }: Size): OverviewArticulation => ({
  name,
  switch: null,
  notes: 120,
  keysPlayed: [[36, 60]],
  velocities: [1, 127],
  zones: 900,
  zonesKept: 600,
  bytes: { full: 90 * MiB, kept: 60 * MiB },
  playable: {
    state: 'part',
    all: [[24, 98]],
    stretches: [
      {
        keys: [[24, 60]],
        dynamics: [{ by: 'velocity', safe: [[1, 112]], all: [1, 127] }],
        together: [],
        dependsOn: [],
        releasesGone: false,
      },
    ],
  },
  copies: [],
  rows: Array.from({ length: rows }, (_, row) => ({
    velocity: [128 - 42 * (row + 1), 127 - 42 * row],
    controllers: [],
    event: 'note',
    zones: 6 * cells,
    zonesKept: 4 * cells,
    cells: Array.from({ length: cells }, (_, i) => cell(i)),
  })),
});

const instrument = (i: number, size: Size): OverviewInstrument => ({
  id: size.name ?? `instrument-${String(i)}`,
  source: size.name ?? `tables/instrument-${String(i)}.csv`,
  machine: i % 2,
  player: size.name ?? 'loading',
  unloads: 'layer',
  zones: 900,
  zonesKept: 600,
  samples: 900,
  samplesKept: 600,
  bytes: {
    full: 450 * MiB + i,
    reached: 200 * MiB,
    kept: 300 * MiB,
    unknownSamples: 0,
    basis: 'computed',
    readings: 0,
    residual: 0,
    low: 300 * MiB,
    high: 310 * MiB,
  },
  notes: 600,
  copies: [],
  changes: [],
  otherNotes: { choosing: 40, doubtful: 3, nothing: 2 },
  microphones: [
    {
      name: size.name ?? 'close',
      zones: 900,
      zonesKept: 600,
      bytes: { full: 450 * MiB, kept: 300 * MiB },
      bytesAtMost: true,
    },
  ],
  doubts: [{ name: 'order', zones: 12, settled: null }],
  pins: 0,
  keys: [24, 98],
  articulations: Array.from({ length: size.articulations }, (_, a) =>
    articulation(size.name ?? `articulation ${String(a)}`, size),
  ),
  witnesses: [],
});

/** An overview made by rule, as large as one likes, with all that a page shows in it. */
export const overviewOfSize = (size: Size): Overview => {
  const name = size.name ?? 'a';
  const machines = [name, size.name ?? 'b'];
  const figure = { bytes: 300 * MiB, low: 290 * MiB, high: 310 * MiB };
  return {
    schema: 'keepset/report@1',
    title: name,
    middleC: 4,
    keep: { path: size.name ?? 'keep.json', sha256: 'ab'.repeat(32), refused: null },
    template: { path: size.name ?? 'keepset.yaml', sha256: 'cd'.repeat(32) },
    settings: {
      instrument: null,
      settle: {},
      headroom: { keys: 0, velocity: 0, controller: 0 },
      pins: [],
      slack: 0,
      allowUnmapped: false,
      without: [],
      newest: false,
      acceptPartial: [],
      split: null,
    },
    total: {
      bytes: {
        full: 9 * 1024 * MiB,
        reached: 4 * 1024 * MiB,
        kept: 6 * 1024 * MiB,
        saved: 3 * 1024 * MiB,
      },
      zones: 900 * size.instruments,
      zonesKept: 600 * size.instruments,
      samples: 900 * size.instruments,
      samplesKept: 600 * size.instruments,
    },
    proof: {
      verdict: 'proved',
      of: 'plan',
      cues: [],
      absent: [],
      leftOut: [],
      accepted: [],
      notes: 60_000,
      open: [],
      settled: [],
      total: { misses: 0, notes: 0, doubtfulNotes: 0, bytes: 0 },
      doubtfulMisses: 0,
      misses: [],
      unlisted: 0,
    },
    machines: machines.map((id) => ({
      id,
      budget: 8 * 1024 * MiB,
      bytes: {
        full: 4 * 1024 * MiB,
        kept: 3 * 1024 * MiB,
        low: 3 * 1024 * MiB,
        high: 3 * 1024 * MiB,
      },
      fits: true,
      fitsNow: true,
      fitsAfter: null,
      peak: { cue: 0, bytes: 300 * MiB },
      steps: 1,
      largest: [],
      ways: [],
    })),
    actions: [{ numbers: [1], machine: 0, instrument: 0, articulations: [name], frees: 30 * MiB }],
    doubts: [{ name: 'order', settled: null, zones: 12, bytes: 20 * MiB }],
    together: [],

    doubtsAll: 20 * MiB,
    doubtsAt: [{ name: 'order', instruments: [0], accepted: [], plain: [] }],
    allowances: { headroom: { zones: 0, bytes: 0 }, pins: [] },
    versions: [],
    printed: { parts: 1, zones: 3, bytes: MiB, tracks: [{ cue: name, track: name }] },
    groups: null,
    risks: [{ kind: 'no-headroom' }],
    instruments: Array.from({ length: size.instruments }, (_, i) => instrument(i, size)),
    cues: Array.from({ length: size.cues }, (_, cue) => ({
      id: size.name ?? `${String(cue)}m1`,
      version: null,
      files: [{ path: size.name ?? 'cue.mid', sha256: 'ef'.repeat(32) }],
      state: 'read',
      notes: 1000,
      seconds: 120,
      machines: [figure, figure],
      ...figure,
      load: 20 * MiB,
      mayGo: 10 * MiB,
      // A cue needs a third of the instruments.
      needs: Array.from({ length: size.instruments }, (_, i) => [i, (i + 1) * MiB] as const).filter(
        ([i]) => (i + cue) % 3 === 0,
      ),
    })),
    tracks: [name],
    reasons: [['played'], ['order'], ['headroom']],
    witnessesPerCell: 0,
    reduced: [],
    worklist: machines.map((id, machine) => ({
      id,
      budget: 8 * 1024 * MiB,
      bytes: { full: 4 * 1024 * MiB, now: 4 * 1024 * MiB, after: 3 * 1024 * MiB },
      actions: [
        {
          number: machine + 1,
          does: 'unload',
          instrument: size.name ?? 'instrument-0',
          copy: null,
          spareCopies: 0,
          unit: { grain: 'articulation', articulations: [name], layer: null, microphone: null },
          zones: 300,
          samples: 300,
          unknownSamples: 0,
          keeps: null,
          frees: 30 * MiB,
          total: 3 * 1024 * MiB,
          seen: null,
          note: '',
          missed: null,
        },
      ],
      unlisted: { steps: 0, frees: 0 },
      slight: { numbers: [machine + 1], frees: 30 * MiB },
    })),
    findings: [],
  };
};
