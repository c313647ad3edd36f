import type { LoadedInstrument } from '../memory/loaded.ts';
import { memoryOf } from '../memory/loaded-memory.ts';
import { planArticulations } from './articulations.ts';
import {
  fullyLoaded,
  isLoaded,
  loadedUnder,
  settledAsPlain,
  type Decision,
  type Subject,
} from './decision.ts';
import { keptMask, reachedMask, why, type KeepSet } from './keep-set.ts';
import { keptZone } from './kept-zone.ts';
import type { CopyChoices } from './copy-choices.ts';
import type { InstrumentBytes, PlanCopy, PlanInstrument } from './plan.ts';
import { zoneFacts } from './zone-facts.ts';

/** An instrument in memory: all of it, what the score reaches, and what stays. */
export interface InstrumentMemory {
  readonly full: LoadedInstrument;
  readonly reached: LoadedInstrument;
  readonly kept: LoadedInstrument;
}

export const instrumentMemory = (subject: Subject, decision: Decision): InstrumentMemory => ({
  full: fullyLoaded(subject),
  reached: loadedUnder(subject, decision, reachedMask),
  kept: loadedUnder(subject, decision),
});

/**
 * What stays of one instrument, why, and what it takes.
 *
 * @param choices of its copies, by name
 */
export const planInstrument = (
  subject: Subject,
  decision: Decision,
  memory: InstrumentMemory,
  choices: ReadonlyMap<string, CopyChoices>,
): PlanInstrument => {
  const { instrument, tally, player, machine, settle } = subject;
  const { zones, samples, presetZones } = instrument;
  const { whole } = decision;
  const excluded = settledAsPlain(settle);
  const indices = zones.map((_, zone) => zone);
  const kept = indices.filter((zone) => whole.why[zone] !== why.dropped);
  const isMute = (zone: number): boolean => whole.why[zone] === why.mutes;
  const keptSamples = kept.flatMap((zone) => (isMute(zone) ? [] : zones[zone]!.samples));
  return {
    id: instrument.id,
    source: instrument.source,
    sha256: instrument.sha256,
    machine,
    player: player.id,
    shares: player.shares,
    unloads: player.unloads,
    settle,
    zones: zones.length,
    zonesKept: kept.length,
    samples: samples.length,
    samplesKept: new Set(keptSamples).size,
    bytes: bytesOf(subject, memory),
    copies: planCopies(subject, decision, choices),
    articulations: planArticulations(instrument, tally, whole.starts, memory),
    kept: kept.map((zone) => ({
      ...zoneFacts(instrument, player, zone, isMute(zone)),
      ...keptZone(tally, zone, whole.why[zone]!, excluded),
    })),
    dropped: indices
      .filter((zone) => whole.why[zone] === why.dropped)
      .map((zone) => zoneFacts(instrument, player, zone)),
    presetZones: ascending(presetZones.filter((_, start) => whole.starts[start] === 1)),
  };
};

const bytesOf = (
  { instrument: { samples }, calibration }: Subject,
  memory: InstrumentMemory,
): InstrumentBytes => {
  const { bytes, low, high, basis } = memoryOf(memory.kept);
  const fitted = calibration.basis === 'fitted' ? calibration : { readings: 0, residual: 0 };
  return {
    full: memoryOf(memory.full).bytes,
    reached: memoryOf(memory.reached).bytes,
    kept: bytes,
    unknownSamples: samples.filter(({ present }) => !present).length,
    basis,
    readings: fitted.readings,
    residual: Math.round(fitted.residual),
    low,
    high,
  };
};

const planCopies = (
  { instrument: { zones }, tally }: Subject,
  { whole, copies }: Decision,
  choices: ReadonlyMap<string, CopyChoices>,
): readonly PlanCopy[] => {
  const idsOf = (set: KeepSet): readonly number[] => {
    const mask = keptMask(set);
    return zones.flatMap(({ id }, zone) => (mask[zone] === 1 ? [id] : []));
  };
  const mutedOf = ({ why: reasons }: KeepSet): readonly number[] =>
    zones.flatMap(({ id }, zone) => (reasons[zone] === why.mutes ? [id] : []));
  const shared = idsOf(whole).length;
  return tally.copies.map((copy, i) => {
    const { name, notes } = copy;
    const own = copies === null ? null : idsOf(copies[i]!);
    return {
      name,
      notes,
      zonesKept: own === null ? (isLoaded(copy) ? shared : 0) : own.length,
      kept: own,
      muted: own === null ? [] : mutedOf(copies![i]!),
      ...choices.get(name)!,
    };
  });
};

const ascending = (values: Iterable<number>): readonly number[] =>
  [...new Set(values)].sort((a, b) => a - b);
