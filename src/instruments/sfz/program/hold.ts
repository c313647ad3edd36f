import { doubtSet, plain, type DoubtSet } from '../../../terms/doubt.ts';
import { controllers, powerOnValue } from '../../../terms/controllers.ts';
import type { Hold, Pedal, PedalReading } from '../../program.ts';
import type { Parts } from './parts.ts';
import { engine } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

/** A pedal counts as down from here on where a region does not say (documentation, `sustain_lo`). */
const halfAStep = 0.5;

const startState = doubtSet('start-state');

/** Where some engines have it, whatever the region says. */
const fixedThreshold = 64;

/** True for a region that plays to its end whatever its key does (documentation, `loop_mode`). */
export const isOneShot = (opcodes: RegionOpcodes): boolean => {
  const mode = opcodes.text('loop_mode');
  if ((opcodes.whole('count') ?? 0) > 0 || mode === 'one_shot') return true;
  return mode === null && isRelease(opcodes);
};

export const isRelease = (opcodes: RegionOpcodes): boolean => {
  const trigger = opcodes.text('trigger');
  return trigger === 'release' || trigger === 'release_key';
};

/** Values of controllers before any message. */
type Initial = Pick<Parts, 'initial' | 'otherInitial'>;

type Pair = Pick<PedalReading, 'sustain' | 'sostenuto' | 'doubt'>;

/**
 * What keeps a region sounding. Engines do not agree from where on a pedal is down, nor on what Reset
 * All Controllers does to it; and the sustain pedal may have gone down before the cue.
 */
export const holdOf = (opcodes: RegionOpcodes, initial: Initial): Hold => {
  const own = pedalsOf(opcodes, initial.initial, plain);
  const written =
    initial.otherInitial.size === 0 ? own : pedalsOf(opcodes, either(initial), engine);
  const pairs = [own, written].flatMap((pair) => [pair, atFixed(pair)]);
  const readings = [...pairs, ...pairs.flatMap(downBefore)].flatMap((pair) =>
    (['standard', 'ignored', 'all'] as const).map((reset): PedalReading => ({
      ...pair,
      reset,
      doubt: pair.doubt | (reset === 'standard' ? plain : engine),
    })),
  );
  return { oneShot: isOneShot(opcodes), pedals: distinctReadings(readings) };
};

/** Values between two steps the other way round. */
const either = ({ initial, otherInitial }: Initial): ReadonlyMap<number, number> =>
  new Map([...initial, ...otherInitial]);

const pedalsOf = (
  opcodes: RegionOpcodes,
  initial: ReadonlyMap<number, number>,
  doubt: DoubtSet,
): Pair => ({
  sustain: pedalOf(opcodes, 'sustain', controllers.sustain, initial),
  sostenuto: pedalOf(opcodes, 'sostenuto', controllers.sostenuto, initial),
  doubt,
});

const pedalOf = (
  opcodes: RegionOpcodes,
  name: 'sustain' | 'sostenuto',
  standard: number,
  initial: ReadonlyMap<number, number>,
): Pedal | null => {
  if (opcodes.flag(`${name}_sw`) === false) return null;
  const controller = opcodes.whole(`${name}_cc`) ?? standard;
  return {
    controller,
    initial: initial.get(controller) ?? powerOnValue(controller),
    down: Math.ceil(opcodes.number(`${name}_lo`) ?? halfAStep),
  };
};

const atFixed = ({ sustain, sostenuto, doubt }: Pair): Pair => {
  const fixed = (pedal: Pedal | null): Pedal | null =>
    pedal === null ? null : { ...pedal, down: fixedThreshold };
  return { sustain: fixed(sustain), sostenuto: fixed(sostenuto), doubt: doubt | engine };
};

/** The sostenuto pedal holds only what is struck before it goes down: of a cue, nothing. */
const downBefore = ({ sustain, sostenuto, doubt }: Pair): readonly Pair[] =>
  sustain === null || sustain.initial >= sustain.down || sustain.down > 127
    ? []
    : [{ sustain: { ...sustain, initial: 127 }, sostenuto, doubt: doubt | startState }];

const distinctReadings = (readings: readonly PedalReading[]): readonly PedalReading[] => [
  ...new Map(readings.map((one) => [JSON.stringify(one), one])).values(),
];

/** Envelopes that are drawn may go on for as long as they like. */
const drawn = /^eg\d+_(?:ampeg|amplitude|volume)$/u;

/** The longest that a region goes on after its release, in seconds (documentation, `ampeg_release`). */
export const releaseSeconds = (opcodes: RegionOpcodes): number => {
  const depths = opcodes
    .numbered('ampeg_release_oncc')
    .map((n) => Math.max(opcodes.number(`ampeg_release_oncc${String(n)}`) ?? 0, 0));
  const own = opcodes.number('ampeg_release') ?? 0.001;
  if ([...opcodes.names].some((name) => drawn.test(name))) return Infinity;
  const byVelocity = Math.max(opcodes.number('ampeg_vel2release') ?? 0, 0);
  return depths.reduce((sum, depth) => sum + depth, Math.max(own, 0) + byVelocity);
};
