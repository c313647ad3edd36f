import type { CopyUsage } from '../../playback/zone-usage.ts';
import { decide, type Decision } from '../decision.ts';
import { keptMask, loadedMask, type KeepSet } from '../keep-set.ts';
import { ladderPoints, type LadderPoint } from './ladder.ts';
import type { InstrumentInParts, Part } from './part-of-reel.ts';
import { never } from './near-starts.ts';
import type { Trial } from './trials.ts';

/** Zones that a copy of an instrument needs, or any of its copies where all load the same. */
interface Need {
  /** Its place among the copies of the plan; null: all load the same. */
  readonly copy: number | null;
  /** Their samples are heard. */
  readonly loud: ReadonlySet<number>;
  /** They have to stop others, and need no samples. */
  readonly silent: ReadonlySet<number>;
}

/**
 * Holds cues against plans of others, one for each point of the ladder. Unreadable stretches are left
 * aside: they would keep whatever the plan should have been asked for.
 *
 * @returns per point, whether the plan keeps all that the cues need
 */
export const holdTrial = (
  trial: Trial,
  instruments: readonly InstrumentInParts[],
): readonly boolean[] => {
  const served = ladderPoints.map(() => true);
  for (const instrument of instruments) {
    const own = trial.own.flatMap((file) => instrument.usages(file));
    if (own.length === 0 || !served.includes(true)) continue;
    holdInstrument(instrument, trial, own, served);
  }
  return served;
};

const holdInstrument = (
  instrument: InstrumentInParts,
  { rest }: Trial,
  own: readonly CopyUsage[],
  served: boolean[],
): void => {
  const part = instrument.part(rest);
  const needs = needsOf(
    instrument,
    part,
    rest.flatMap((file) => instrument.usages(file)),
    own,
  );
  if (needs === null) return void served.fill(false);
  const open = needs.flatMap((need) => notReached(instrument, part, need));
  if (open.length === 0) return;
  const decideAt = ({ headroom: { keys }, room }: LadderPoint): Decision =>
    decide(instrument.subjectOf(part, room, keys, false), 0);
  const steady = addsOnlyItself(instrument) ? decideAt(ladderPoints[0]!) : null;
  ladderPoints.forEach((point, i) => {
    if (!served[i]!) return;
    const far = open.flatMap((need) => notNear(instrument, part, need, point));
    if (far.length === 0) return;
    const decision = steady ?? decideAt(point);
    served[i] = far.every((need) => isKept(need, decision));
  });
};

/** What usage of copies needs under open doubts; null: a copy that the plan does not load needs something. */
const needsOf = (
  instrument: InstrumentInParts,
  { copies }: Part,
  rest: readonly CopyUsage[],
  own: readonly CopyUsage[],
): readonly Need[] | null => {
  const { program } = instrument.subject.instrument;
  const { rooms } = instrument.rooms;
  const byCopy = instrument.subject.player.shares === 'copy';
  const known = [...rest, ...own];
  const needs = own.map((usage): Need => {
    const { starts, distances, silent } = instrument.near(usage, known);
    const heard = starts.filter((_, i) => distances[i * rooms.length] === 0);
    const zonesOf = (some: readonly number[]): ReadonlySet<number> =>
      new Set(some.map((start) => program.starts[start]!.zone));
    const copy = byCopy ? copies.findIndex(({ name }) => name === usage.copy) : null;
    return { copy, loud: zonesOf(heard), silent: zonesOf(silent) };
  });
  const asking = needs.filter(({ loud, silent }) => loud.size + silent.size > 0);
  return asking.some(({ copy }) => copy === -1) ? null : asking;
};

/** What is left of a need when what the others reach is taken off: that stays at any headroom. */
const notReached = (instrument: InstrumentInParts, part: Part, need: Need): readonly Need[] => {
  const { starts } = instrument.subject.instrument.program;
  const { distances, silent } = need.copy === null ? part.whole : part.copies[need.copy]!;
  const loud = new Set<number>();
  const muted = new Set<number>();
  starts.forEach(({ zone }, i) => {
    if (distances[0]![i] === 0) loud.add(zone);
    if (silent[i] === 1) muted.add(zone);
  });
  return rest(need, loud, muted);
};

/** What is left of a need when what comes near enough to the others' notes is taken off. */
const notNear = (
  instrument: InstrumentInParts,
  part: Part,
  need: Need,
  { headroom: { keys }, room }: LadderPoint,
): readonly Need[] => {
  const { starts } = instrument.subject.instrument.program;
  const wide = (need.copy === null ? part.whole : part.copies[need.copy]!).distances[room]!;
  const near = new Set<number>();
  starts.forEach(({ zone }, i) => {
    if (wide[i]! !== never && wide[i]! <= keys) near.add(zone);
  });
  return rest(need, near, near);
};

const rest = (
  { copy, loud, silent }: Need,
  loaded: ReadonlySet<number>,
  muted: ReadonlySet<number>,
): readonly Need[] => {
  const left = {
    copy,
    loud: new Set([...loud].filter((zone) => !loaded.has(zone))),
    silent: new Set([...silent].filter((zone) => !loaded.has(zone) && !muted.has(zone))),
  };
  return left.loud.size + left.silent.size === 0 ? [] : [left];
};

/** Headroom keeps the zones that it reaches and nothing for their sake. */
const addsOnlyItself = ({ subject: { instrument, player } }: InstrumentInParts): boolean =>
  player.unloads === 'sample' && instrument.samples.every(({ partner }) => partner === null);

const isKept = ({ copy, loud, silent }: Need, { whole, copies }: Decision): boolean => {
  const set: KeepSet = copy === null ? whole : copies![copy]!;
  const loaded = loadedMask(set);
  const kept = keptMask(set);
  return (
    [...loud].every((zone) => loaded[zone] === 1) && [...silent].every((zone) => kept[zone] === 1)
  );
};
