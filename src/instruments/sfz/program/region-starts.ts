import { plain, type DoubtSet } from '../../../terms/doubt.ts';
import type { SampleHeader } from '../../../samples/sample-header.ts';
import { toRanges } from '../../../terms/range.ts';
import type { Condition, Start } from '../../program.ts';
import type { Region } from '../structure/regions.ts';
import { isSilent, type Chokes } from './chokes.ts';
import { controllerConditions } from './controller-gates.ts';
import { controllerTriggers } from './controller-triggers.ts';
import { fadeReadings } from './controller-fades.ts';
import { holdOf, isOneShot, isRelease, releaseSeconds } from './hold.ts';
import { audibleKeys, keyReadings } from './key-range.ts';
import { longestSeconds } from './longest.ts';
import type { Parts } from './parts.ts';
import { engine, type RangeReading } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';
import type { ReleasedNotes } from './released-notes.ts';
import { turn } from './sequence.ts';
import { anyVelocity, silently, startsOf, unfaded, type Trigger } from './start-draft.ts';
import { polyPressureReadings, stateConditions } from './state-gates.ts';
import { manyKeys, switchConditions, type InstrumentSwitches } from './switch-gates.ts';
import { audibleVelocities, velocityReadings } from './velocity-range.ts';

/** What all regions of an instrument are compiled with. */
export interface Surroundings {
  readonly parts: Parts;
  readonly switches: InstrumentSwitches;
  readonly chokes: Chokes;
  readonly released: ReleasedNotes;
  readonly curves: ReadonlyMap<number, readonly number[]>;
}

/** A region, and what its sample is. */
export interface RegionSource {
  readonly region: Region;
  readonly opcodes: RegionOpcodes;
  readonly plays: 'sound' | 'silence';
  readonly header: SampleHeader | null;
  readonly articulation: number;
}

/** Every way in which a region starts; none when no reading lets it. */
export const regionStarts = (source: RegionSource, around: Surroundings): readonly Start[] => {
  const { region, opcodes, plays, header, articulation } = source;
  const { parts, chokes, released, curves } = around;
  const doubt = turn(opcodes);
  if (doubt === null) return [];
  const silent = isSilent(opcodes, plays);
  const canChoke = chokes.has(opcodes);
  const keys = keyReadings(opcodes, region);
  // A release may ask for a voice that plays its note, and be it one that is never heard.
  const isAskedFor = !isRelease(opcodes) && released.has(keys, velocityReadings(opcodes));
  if (silent && !canChoke && !isAskedFor) return [];
  const common = {
    zone: region.number,
    articulation,
    hold: parts.hold(holdOf(opcodes, parts)),
  };
  const toItsEnd = longestSeconds(opcodes, keys, region.control.noteOffset, header);
  const afterKey = isOneShot(opcodes) ? toItsEnd : releaseSeconds(opcodes);
  const make = (trigger: Trigger, heard: Trigger): readonly Start[] => {
    // What a release starts no key ends.
    const own = { ...common, releaseSeconds: trigger.event === 'note-on' ? afterKey : toItsEnd };
    const quiet = (): readonly Start[] => silently(startsOf(trigger, own, unfaded));
    const matters = canChoke || (isAskedFor && trigger.event === 'note-on');
    if (silent) return matters ? quiet() : [];
    const fades = fadeReadings(opcodes, curves, parts);
    const sounding = startsOf(heard, own, fades);
    const isWhole =
      heard === trigger && fades.every(({ fades: some }) => some.length === 0) && fades.length > 0;
    return matters && !isWhole ? [...sounding, ...quiet()] : sounding;
  };
  const triggers = noteTriggers(source, keys, around, doubt);
  return [
    ...triggers.flatMap(({ trigger, heard }) => make(trigger, heard)),
    ...controllerTriggers(opcodes, changeGate(source, around), keys, parts).flatMap((one) =>
      make({ ...one, doubt: one.doubt | doubt }, { ...one, doubt: one.doubt | doubt }),
    ),
  ];
};

interface NoteTrigger {
  readonly trigger: Trigger;
  /** The same where something can be heard. */
  readonly heard: Trigger;
}

const noteTriggers = (
  { region, opcodes }: RegionSource,
  keys: readonly RangeReading[],
  around: Surroundings,
  doubt: DoubtSet,
): readonly NoteTrigger[] => {
  const kind = opcodes.text('trigger') ?? 'attack';
  const common = gateConditions(opcodes, region, around);
  if (common === null) return [];
  const velocities = velocityReadings(opcodes);
  const heardVelocities = audibleVelocities(velocities, opcodes);
  const heardKeys = audibleKeys(keys, opcodes, region);
  const byPrevious = opcodes.text('sw_vel') === 'previous';
  const trigger = (
    which: readonly RangeReading[],
    strengths: readonly RangeReading[],
    event: Trigger['event'],
    own: readonly Condition[],
    more: DoubtSet,
  ): Trigger => {
    const previous = byPrevious ? [previousVelocity(strengths, around.parts)] : [];
    return {
      event,
      gate: around.parts.gate([...common, ...own, ...previous]),
      doubt: doubt | more,
      keys: which,
      velocities: byPrevious ? anyVelocity : strengths,
    };
  };
  const both = (
    event: Trigger['event'],
    more: DoubtSet = plain,
    own: readonly Condition[] = [],
  ): NoteTrigger => {
    const whole = trigger(keys, velocities, event, own, more);
    const isWhole =
      JSON.stringify([keys, velocities]) === JSON.stringify([heardKeys, heardVelocities]);
    return {
      trigger: whole,
      heard: isWhole ? whole : trigger(heardKeys, heardVelocities, event, own, more),
    };
  };
  switch (kind) {
    case 'release':
      return [
        both('release'),
        both('restrike', engine),
        ...(around.chokes.any ? [both('cut', engine)] : []),
      ];
    case 'release_key':
      return [both('note-off'), both('note-on', engine)];
    case 'first':
    case 'legato':
      return [both('note-on', plain, [otherKeys(kind, around)])];
    default:
      return [both('note-on')];
  }
};

/** The velocity of the note before takes the place of the note's own (documentation, `sw_vel`). */
const previousVelocity = (velocities: readonly RangeReading[], parts: Parts): Condition => ({
  signal: parts.signal({ kind: 'previous-velocity' }),
  tests: velocities.map(({ range: [lo, hi], doubt }) => ({ lo: Math.max(lo, 0), hi, doubt })),
});

/**
 * `first`: no other key is held; `legato`: some is. Switches that are held do not count (sfizz 1.2.3,
 * measured); some engines start both kinds always.
 */
const otherKeys = (kind: 'first' | 'legato', { parts, switches }: Surroundings): Condition => {
  const all = new Set(switches.shifted.keys);
  const keys = toRanges(
    Array.from({ length: 128 }, (_, key) => key).filter((key) => !all.has(key)),
  );
  const [lo, hi] = kind === 'first' ? [0, 0] : [1, manyKeys];
  return {
    signal: parts.signal({ kind: 'held', keys, own: false }),
    tests: [
      { lo, hi, doubt: plain },
      { lo: 0, hi: manyKeys, doubt: engine },
    ],
  };
};

const gateConditions = (
  opcodes: RegionOpcodes,
  region: Region,
  { parts, switches }: Surroundings,
): readonly Condition[] | null => {
  const controllers = controllerConditions(opcodes, parts);
  const state = stateConditions(opcodes, parts);
  const keyswitches = switchConditions(opcodes, region, switches, parts);
  if (controllers === null || state === null || keyswitches === null) return null;
  return [...controllers, ...state, ...keyswitches];
};

/** What has to hold when a controller starts a region, which has no key of its own; or null. */
const changeGate = ({ opcodes, region }: RegionSource, around: Surroundings): number | null => {
  const conditions = gateConditions(opcodes, region, around);
  if (conditions === null) return null;
  const { parts } = around;
  const readings = polyPressureReadings(opcodes);
  if (readings === null) return parts.gate(conditions);
  const own = parts.signal({ kind: 'poly-pressure', of: 'own-key' });
  const any = parts.signal({ kind: 'poly-pressure', of: 'any-key' });
  return parts.gate(
    conditions.map(({ signal, tests }) =>
      signal === own
        ? {
            signal: any,
            tests: tests.flatMap(({ signal: asked, ...test }) => (asked === any ? [] : [test])),
          }
        : { signal, tests },
    ),
  );
};
