import type { Instrument } from '../../../src/instruments/instrument.ts';
import type {
  Legato,
  Outline,
  OutlineArticulation,
  Releases,
  When,
} from '../../../src/instruments/outline/outline.ts';
import { outlineInstrument } from '../../../src/instruments/outline/outline-instrument.ts';
import { zoneDoubts } from '../../../src/keep/reach.ts';
import { namesOf } from '../../../src/terms/doubt.ts';
import type { OracleEvent } from '../../oracle/soundfont-events.ts';
import { usageOf } from '../../playback/hand-made.ts';

/** Outlines built by hand: nothing is known but what a test says. */
export const at = { line: 1, column: 1 } as const;

const one = { count: 1, borrow: 0 } as const;

export const anyTime: When = { velocity: null, controllers: [], pressure: null, held: null };

export const articulation = (
  name: string,
  over: Partial<OutlineArticulation> = {},
): OutlineArticulation => ({
  name,
  at,
  choice: { kind: 'unknown' },
  choiceAt: at,
  keys: null,
  keysAt: at,
  sampled: null,
  stretch: null,
  layers: [],
  roundRobins: one,
  seconds: null,
  sound: { rate: null, bits: null, channels: null },
  microphones: [null],
  when: anyTime,
  releases: null,
  legato: null,
  measured: null,
  ...over,
});

export const releases = (over: Partial<Releases> = {}): Releases => ({
  event: 'release',
  layers: [],
  roundRobins: one,
  seconds: null,
  measured: null,
  ...over,
});

export const legato = (over: Partial<Legato> = {}): Legato => ({
  intervals: null,
  layers: [],
  roundRobins: one,
  seconds: null,
  overlap: null,
  returns: false,
  measured: null,
  ...over,
});

export const key = (number: number): OutlineArticulation['choice'] => ({
  kind: 'switch',
  test: { kind: 'key', key: number },
});

export const outline = (
  articulations: readonly OutlineArticulation[],
  over: Partial<Outline> = {},
): Outline => ({
  path: 'outlines/horns.yaml',
  middleC: 4,
  articulations,
  measured: { empty: null, full: null },
  ...over,
});

export const built = (...articulations: readonly OutlineArticulation[]): Instrument =>
  outlineInstrument(outline(articulations), 'digest', []);

export const names = ({ zones }: Instrument): readonly string[] =>
  zones.map((zone) => zone.key ?? '');

/** What a cue reaches: names of zones, those in doubt with their doubts. */
export const reached = (
  instrument: Instrument,
  events: readonly OracleEvent[],
): readonly string[] =>
  zoneDoubts(instrument, [usageOf(instrument, events)]).flatMap((sets, zone) => {
    const [first] = sets;
    if (first === undefined) return [];
    const doubts = sets.map((set) => namesOf(set).join('+')).join(' or ');
    const name = instrument.zones[zone]!.key!;
    return [first === 0 ? name : `${name}: ${doubts}`];
  });
