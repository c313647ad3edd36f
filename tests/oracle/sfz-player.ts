/**
 * A naive SFZ player on raw opcodes: which regions a reel reaches, and under which doubts. A slow
 * second opinion: every region is tried against every event, and every question about the past goes
 * through the cue again from its start. To be read beside the design's section 6 and its readings of SFZ.
 *
 * What is where: `sfz-regions` headers and offsets, `sfz-signals` and `sfz-held` what may be in force
 * at an event, `sfz-switches` keyswitches, `sfz-gates` the other gates, `sfz-strikes` and `sfz-pedals`
 * when notes end, `sfz-starts` and `sfz-ends` what may start a region, `sfz-audible` and `sfz-life` what
 * is heard, `sfz-silent` where a start that is not heard counts.
 *
 * Pedals are followed in file order. Under `order` a note-off may come sooner or later among the pedals
 * of its tick; under `start-state` the sustain pedal may be down from before the cue.
 */
import { doubtBits, minimal, plain } from './doubts.ts';
import { fadesOf, keyIsHeard, releaseSeconds, velocityIsHeard } from './sfz-audible.ts';
import { cheapest, known, waysToHold, type Condition } from './sfz-conditions.ts';
import { inNames, type SfzCue, type SfzData, type SfzReel, type SfzResult } from './sfz-data.ts';
import type { SfzStart, SfzUsage } from './sfz-data.ts';
import type { StartEvent } from './sfz-ends.ts';
import { gatesOf, neverOpens } from './sfz-gates.ts';
import { othersHeld } from './sfz-held.ts';
import { heardInLife, type Life } from './sfz-life.ts';
import { pedalHistories } from './sfz-pedals.ts';
import { integer, readInstrument, real, type OracleRegion } from './sfz-regions.ts';
import { previousVelocity, tickOf, type SignalValue } from './sfz-signals.ts';
import { canChoke, canShield, hasSound } from './sfz-silent.ts';
import { startEvents } from './sfz-starts.ts';
import { copyChooses, switchKeysOf, within, type Copy } from './sfz-switches.ts';
import { keysOfRegion, startsByRelease, triggerOf, velocitiesOf } from './sfz-triggers.ts';

const { engine, pedalHeld, tail } = doubtBits;

/** Plays a reel on one copy of an instrument. */
export function playSfz(data: SfzData, reel: SfzReel): SfzResult {
  const instrument = readInstrument(data);
  const matters = (region: OracleRegion): boolean =>
    everAlive(region).every((tests) => tests.some(({ accepts }) => accepts(0))) &&
    (hasSound(region) ||
      canChoke(instrument.regions, region) ||
      canShield(instrument.regions, region)) &&
    !neverOpens(region);
  const copy: Copy = { instrument, reel, chooses: copyChooses(instrument, reel, matters) };
  const starts: SfzStart[] = [];
  const regions = instrument.regions.map((region): SfzUsage => {
    const chokes = canChoke(instrument.regions, region);
    const shields = canShield(instrument.regions, region);
    const reached: number[] = [];
    const mutes: number[] = [];
    reel.forEach((cue, cueNumber) => {
      for (const start of startEvents(instrument, region, cue)) {
        const happens = whenItHappens(copy, region, cue, start);
        if (happens.length === 0) continue;
        const heard = hasSound(region) ? whenItIsHeard(copy, region, cue, start) : [];
        reached.push(...heard);
        // Heard for no more doubts than it starts: then it is no silent start.
        const silent = happens.filter((set) => !heard.some((other) => (other & set) === other));
        if (chokes || (shields && start.why === 'note')) mutes.push(...silent);
        starts.push(described(region, cueNumber, start, happens, heard));
      }
    });
    return { reached: minimal(reached).map(inNames), mutes: minimal(mutes).map(inNames) };
  });
  return { regions, starts };
}

function whenItHappens(copy: Copy, region: OracleRegion, cue: SfzCue, start: StartEvent): number[] {
  const ways = waysToHold(conditionsOf(copy, region, cue, start), start.moment);
  return minimal(ways.map(({ doubts }) => doubts | start.doubts));
}

function whenItIsHeard(copy: Copy, region: OracleRegion, cue: SfzCue, start: StartEvent): number[] {
  const fades = fadesOf(copy.instrument, region);
  const conditions = [
    ...conditionsOf(copy, region, cue, start),
    ...(start.key === null ? [] : [keyIsHeard(region, start.key)]),
    ...(start.velocity === null
      ? []
      : [velocityIsHeard(region, velocitySignal(region), start.velocity)]),
  ];
  const life = lifeOf(copy, region, start);
  const holds = minimal(waysToHold(conditions, start.moment).map(({ doubts }) => doubts));
  if (holds.length === 0) return [];
  // Gates and fades vary freely: what a gate saw is not held against the fade (the design's
  // over-estimate).
  const heard = combined(fades.map(({ signal }) => cheapest(signal.at(start.moment)))).flatMap(
    ({ values, doubts }) =>
      heardInLife(fades, values, start.moment, life).map((more) => doubts | more | start.doubts),
  );
  return minimal(holds.flatMap((hold) => heard.map((more) => hold | more)));
}

/** One alternative for each controller, in every combination. */
function combined(
  signals: readonly (readonly SignalValue[])[],
): { readonly values: readonly SignalValue[]; readonly doubts: number }[] {
  let all: { values: SignalValue[]; doubts: number }[] = [{ values: [], doubts: plain }];
  for (const alternatives of signals) {
    all = all.flatMap(({ values, doubts }) =>
      alternatives.map((one) => ({ values: [...values, one], doubts: doubts | one.doubts })),
    );
  }
  return all;
}

/** Gates, and what belongs to the kind of start. */
function conditionsOf(
  copy: Copy,
  region: OracleRegion,
  cue: SfzCue,
  start: StartEvent,
): Condition[] {
  const { key, velocity, channel, moment } = start;
  const conditions = [
    ...gatesOf(copy, region, cue, tickOf(moment), { key, channel }),
    ...everAlive(region),
  ];
  const keys = keysOfRegion(region);
  const played = key ?? start.pressedKey;
  if (played !== undefined) {
    conditions.push(
      known([within(played, keys.plain), plain], [within(played, keys.loose), engine]),
    );
  }
  if (velocity !== null) {
    const range = velocitiesOf(region);
    const signal = velocitySignal(region);
    const asked = (value: number) => (signal === null ? velocity : value);
    conditions.push([
      { signal, accepts: (value) => within(asked(value), range.plain), doubts: plain },
      { signal, accepts: (value) => within(asked(value), range.loose), doubts: engine },
    ]);
  }
  const trigger = triggerOf(region);
  if (key !== null && (trigger === 'first' || trigger === 'legato')) {
    const signal = othersHeld({ channel, key }, switchKeysOf(copy.instrument));
    const accepts = (others: number) => (trigger === 'first' ? others === 0 : others > 0);
    conditions.push([{ signal, accepts, doubts: plain }, ...known([true, engine])]);
  }
  return conditions;
}

/** Round robins and random numbers: a place that no counter reaches, a window that holds nothing. */
function everAlive(region: OracleRegion): Condition[] {
  const position = integer(region, 'seq_position') ?? 1;
  const length = integer(region, 'seq_length') ?? 1;
  const lowest = real(region, 'lorand') ?? 0;
  const highest = real(region, 'hirand') ?? 1;
  // Out of range counts as not written for an engine.
  const isFraction = (value: number) => value >= 0 && value <= 1;
  const written = [isFraction(lowest) ? lowest : 0, isFraction(highest) ? highest : 1] as const;
  return [
    known(
      [position >= 1 && position <= Math.max(length, 1), plain],
      [position === 0 || (length === 0 && position > 1), engine],
    ),
    known([holdsAny(lowest, highest), plain], [holdsAny(...written), engine]),
  ];
}

/** Up to 1 includes 1. */
function holdsAny(lowest: number, highest: number): boolean {
  return lowest < highest || (lowest === 1 && highest === 1);
}

function velocitySignal(region: OracleRegion) {
  return region.opcodes.get('sw_vel') === 'previous' ? previousVelocity : null;
}

/** How long the voice of a start sounds, as far as fades are concerned. */
function lifeOf({ instrument }: Copy, region: OracleRegion, start: StartEvent): Life {
  const { events, index } = start.moment;
  const toTheEnd = [{ index: events.length, doubts: plain, tail: -1 }];
  if (start.why === 'controller' || isOneShot(region)) return { ends: toTheEnd, afterStart: plain };
  if (start.why !== 'note') return { ends: toTheEnd, afterStart: tail };
  const ends = pedalHistories(instrument, region, events).flatMap(({ notes, doubts }) => {
    const note = notes.find(({ on }) => on === index);
    return (note?.releases ?? []).flatMap((release) => {
      const all = doubts | release.doubts;
      if (release.value !== null) {
        return [{ index: release.value, doubts: all, tail: releaseSeconds(region) }];
      }
      const keyUp = note?.keyUp ?? null;
      if (keyUp === null) return [{ index: events.length, doubts: all, tail: -1 }];
      // Only a pedal that never goes up holds it from its key's end to that of the cue.
      return [
        { index: keyUp, doubts: all, tail: -1 },
        { index: events.length, doubts: all | pedalHeld, tail: -1 },
      ];
    });
  });
  // The readings of pedals mostly end a note alike: what the plain one says need not be said again.
  const different = ends.filter(
    (end, i) =>
      !ends
        .slice(0, i)
        .some(
          (earlier) =>
            earlier.index === end.index &&
            earlier.tail >= end.tail &&
            (earlier.doubts & ~end.doubts) === 0,
        ),
  );
  return { ends: different, afterStart: plain };
}

/** Said so, or played a number of times; a release region that says nothing is one too. */
function isOneShot(region: OracleRegion): boolean {
  const mode = region.opcodes.get('loop_mode');
  if ((integer(region, 'count') ?? 0) > 0) return true;
  if (mode !== undefined) return mode === 'one_shot';
  return startsByRelease(region);
}

function described(
  region: OracleRegion,
  cue: number,
  start: StartEvent,
  happens: readonly number[],
  heard: readonly number[],
): SfzStart {
  const { why, moment, key, velocity } = start;
  return {
    region: region.number,
    cue,
    event: moment.index,
    eventKind: moment.events[moment.index]?.kind ?? 'end-of-cue',
    ...{ why, key, velocity },
    starts: happens.map(inNames),
    heard: heard.map(inNames),
  };
}
