import type { Articulation, Instrument, Layer, Sample } from '../instruments/instrument.ts';
import type { Start } from '../instruments/program.ts';
import type { InstrumentMemory } from '../memory/loaded-memory.ts';
import { bytesOf } from '../memory/sample-memory.ts';
import { plain } from '../terms/doubt.ts';
import type { Finding } from '../terms/finding.ts';
import { toRanges, type Range } from '../terms/range.ts';
import type { KeyMap } from './key-map/key-map.ts';
import { makeKeyMap } from './key-map/make-key-map.ts';

/** What an instrument is, before any cue plays it: the result of `inspect`. */
export interface Inspection {
  readonly schema: 'keepset/inspect@1';
  readonly instrument: InspectedInstrument;
  /** The player that the template names for it; null without a template. */
  readonly player: string | null;
  /** What one copy of it takes in that player with everything loaded; null without a player. */
  readonly memory: InstrumentMemory | null;
  readonly articulations: readonly InspectedArticulation[];
  /** Which keys of which layer there are. */
  readonly map: KeyMap;
  readonly findings: readonly Finding[];
}

export type InstrumentKind =
  'soundfont bank' | 'soundfont preset' | 'sfz instrument' | 'zone table' | 'outline';

/**
 * The instrument as a whole. Samples whose sound is not there count in `samples` alone; those of which
 * a table says nothing but bytes say nothing of rates, widths and channels.
 */
export interface InspectedInstrument {
  readonly id: string;
  readonly source: string;
  readonly sha256: string;
  readonly kind: InstrumentKind;
  readonly playedAs: Instrument['playedAs'];
  readonly zones: number;
  readonly samples: number;
  /** Samples whose size is not known (in ROM, or a header that can't be used): not counted. */
  readonly unknownSamples: number;
  /** All samples, whole, at the width that the source stores. */
  readonly bytes: number;
  /** All samples one after the other, three decimals; null when the length of one is not known. */
  readonly seconds: number | null;
  /** Frames per second, bytes of a sample point and channels that occur, ascending. */
  readonly rates: readonly number[];
  readonly widths: readonly number[];
  readonly channels: readonly number[];
}

/** Zones that can start in it, and what they use. */
export interface InspectedArticulation {
  readonly name: string;
  readonly switch: string | null;
  readonly zones: number;
  readonly samples: number;
  /** A sample that several articulations use counts in each. */
  readonly bytes: number;
  /** Keys and velocities that start a zone by the plain reading, releases left out. */
  readonly keys: readonly Range[];
  readonly velocities: Range | null;
  readonly layers: readonly InspectedLayer[];
  /**
   * The most zones of one microphone that answer the same notes under the same conditions: takes that
   * alternate, or sounds that play at once. null in a SoundFont, which has no takes.
   */
  readonly roundRobins: number | null;
  /** Zones that a release starts. */
  readonly releases: number;
  readonly microphones: readonly string[];
}

export interface InspectedLayer extends Omit<Layer, 'zones'> {
  readonly zones: number;
}

/** Who plays an instrument, and what it takes there with everything loaded. */
export interface LoadedBy {
  readonly player: string;
  readonly memory: InstrumentMemory;
}

/** Describes an instrument: what it holds, and what each articulation answers to. */
export const inspectInstrument = (
  instrument: Instrument,
  kind: InstrumentKind,
  loaded: LoadedBy | null = null,
): Inspection => {
  const { id, source, sha256, playedAs, zones, samples, program, articulations } = instrument;
  const starts = articulations.map((): Start[] => []);
  for (const start of program.starts) starts[start.articulation]!.push(start);
  const present = samples.filter((sample) => sample.present);
  const distinct = (of: (sample: Sample) => number): readonly number[] =>
    [...new Set(present.filter(isDescribed).map(of))].sort((a, b) => a - b);
  return {
    schema: 'keepset/inspect@1',
    instrument: {
      id,
      source,
      sha256,
      kind,
      playedAs,
      zones: zones.length,
      samples: samples.length,
      unknownSamples: samples.length - present.length,
      bytes: bytesOf(samples, samples.keys()),
      seconds: secondsOf(present),
      rates: distinct(({ rate }) => rate),
      widths: distinct(({ width }) => width),
      channels: distinct(({ channels }) => channels),
    },
    player: loaded?.player ?? null,
    memory: loaded?.memory ?? null,
    articulations: articulations.map((one, i) =>
      inspectArticulation(instrument, one, starts[i]!, hasTakes(kind)),
    ),
    map: makeKeyMap(instrument, null),
    findings: instrument.findings,
  };
};

const hasTakes = (kind: InstrumentKind): boolean =>
  kind === 'zone table' || kind === 'sfz instrument' || kind === 'outline';

/** False for a sample that is only a number of bytes: it counts as frames of one byte. */
const isDescribed = ({ width }: Sample): boolean => width > 1;

const secondsOf = (samples: readonly Sample[]): number | null =>
  samples.some((sample) => sample.rate === 0 || !isDescribed(sample))
    ? null
    : Math.round(samples.reduce((sum, { frames, rate }) => sum + frames / rate, 0) * 1000) / 1000;

const inspectArticulation = (
  { zones, samples }: Instrument,
  { name, switch: selector, layers }: Articulation,
  starts: readonly Start[],
  takes: boolean,
): InspectedArticulation => {
  const own = [...new Set(starts.map(({ zone }) => zone))].sort((a, b) => a - b);
  const used = new Set(own.flatMap((zone) => zones[zone]!.samples));
  const released = starts.filter(isRelease).map(({ zone }) => zone);
  const microphones = own.flatMap((zone) => zones[zone]!.microphone ?? []);
  const telling = tellingStarts(starts);
  return {
    name,
    switch: selector,
    zones: own.length,
    samples: used.size,
    bytes: bytesOf(samples, used),
    keys: keysOf(telling),
    velocities: velocitiesOf(telling),
    layers: layers.map((layer) => ({ ...layer, zones: layer.zones.length })),
    roundRobins: takes ? mostAlike(starts, (zone) => zones[zone]!.microphone) : null,
    releases: new Set(released).size,
    microphones: [...new Set(microphones)],
  };
};

const isRelease = ({ event }: Start): boolean => event !== 'note-on' && event !== 'change';

/** What a note starts by the plain reading; where that is nothing, whatever can start. */
const tellingStarts = (starts: readonly Start[]): readonly Start[] => {
  // What a controller starts has no key.
  const byKeys = starts.filter(({ event }) => event !== 'change');
  const plainly = byKeys.filter((start) => start.doubt === plain && !isRelease(start));
  return plainly.length > 0 ? plainly : byKeys;
};

const keysOf = (starts: readonly Start[]): readonly Range[] => {
  const played = new Set<number>();
  for (const [lo, hi] of new Set(starts.map(({ keys }) => keys))) {
    for (let key = Math.max(lo, 0); key <= hi; key++) played.add(key);
  }
  return toRanges(played);
};

const velocitiesOf = (starts: readonly Start[]): Range | null => {
  const [first, ...others] = starts;
  if (first === undefined) return null;
  return others.reduce<Range>(
    ([lo, hi], { velocities }) => [Math.min(lo, velocities[0]), Math.max(hi, velocities[1])],
    first.velocities,
  );
};

/** The size of the largest group of starts that only their zones tell apart; 0 without a start. */
const mostAlike = (
  starts: readonly Start[],
  microphoneOf: (zone: number) => string | null,
): number => {
  const groups = new Map<string, number>();
  for (const { zone, event, keys, velocities, gate, fades, doubt } of starts) {
    const text = JSON.stringify([event, keys, velocities, gate, fades, doubt, microphoneOf(zone)]);
    groups.set(text, (groups.get(text) ?? 0) + 1);
  }
  return [...groups.values()].reduce((most, count) => Math.max(most, count), 0);
};
