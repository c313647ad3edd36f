import type { Instrument } from '../instruments/instrument.ts';
import { bytesOf, sampleBytes } from '../memory/sample-memory.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { planArticulations } from './articulations.ts';
import {
  decide,
  holdsWithout,
  keptSamples,
  settledAsPlain,
  type Decision,
  type Settlements,
} from './decision.ts';
import { keptZone } from './kept-zone.ts';
import { planCues } from './plan-cues.ts';
import type { InstrumentBytes, Plan, PlanInstrument } from './plan.ts';
import { priceDoubts } from './prices.ts';
import { tallyUsage, type Tally } from './tally.ts';

/** All that decides a plan; the same values give the same plan, byte for byte. */
export interface PlanInput {
  readonly instrument: Instrument;
  /** Usage of every cue file, in reel order. */
  readonly files: readonly FileUsage[];
  readonly settle: Settlements;
  /** Cues the user left out, by id. */
  readonly without: readonly string[];
  readonly findings: readonly Finding[];
}

/** Without a template: one machine without a budget, one player that loads samples whole. */
const machine = 'default';
const player = 'default';

/** The keep set of one instrument over a reel, with its reasons and prices. */
export const makePlan = ({ instrument, files, settle, without, findings }: PlanInput): Plan => {
  const excluded = settledAsPlain(settle);
  const tally = tallyUsage(instrument, files, excluded);
  const decision = decide(instrument, tally.zoneDoubts, excluded);
  const planned = planInstrument(instrument, tally, decision, excluded);
  const { full, reached, kept, low, high } = planned.bytes;
  return {
    schema: 'keepset/plan@1',
    settings: { instrument: instrument.source, settle, without },
    template: null,
    cues: planCues(files),
    instruments: [planned],
    machines: [{ id: machine, budget: null, bytes: { full, kept, low, high }, fits: null }],
    ...priceDoubts(instrument, tally.zoneDoubts, settle),
    total: {
      bytes: { full, reached, kept, saved: full - kept },
      zones: planned.zones,
      zonesKept: planned.zonesKept,
      samples: planned.samples,
      samplesKept: planned.samplesKept,
    },
    findings: [...instrument.findings, ...findings, ...planFindings(planned)],
  };
};

/** A plan that changes nothing, or would unload everything, deserves a second look. */
const planFindings = ({ id, source, zonesKept, bytes }: PlanInstrument): readonly Finding[] => {
  if (zonesKept === 0) return [finding('warning', 'instrument-unused', source, { instrument: id })];
  return bytes.full > 0 && bytes.kept === bytes.full
    ? [finding('note', 'nothing-saved', source, {})]
    : [];
};

const planInstrument = (
  instrument: Instrument,
  tally: Tally,
  decision: Decision,
  excluded: number,
): PlanInstrument => {
  const { zones, samples, program, presetZones } = instrument;
  const isKept = (zone: number): boolean => decision.byUsage[zone]! || decision.linked[zone]!;
  const startKept = program.starts.map(
    ({ zone }, i) => decision.linked[zone]! || holdsWithout(tally.startDoubts[i]!, excluded),
  );
  const names = (zone: number): readonly string[] =>
    zones[zone]!.samples.map((sample) => samples[sample]!.name);
  const indices = zones.map((_, zone) => zone);
  const keptIndices = indices.filter(isKept);
  return {
    id: instrument.id,
    source: instrument.source,
    sha256: instrument.sha256,
    machine,
    player,
    zones: zones.length,
    zonesKept: keptIndices.length,
    samples: samples.length,
    samplesKept: keptSamples(instrument, decision).size,
    bytes: bytesOfDecision(instrument, decision),
    articulations: planArticulations(instrument, tally, startKept),
    kept: keptIndices.map((zone) => ({
      zone: zones[zone]!.id,
      samples: names(zone),
      ...keptZone(tally, zone, decision.linked[zone]!, excluded),
    })),
    dropped: indices
      .filter((zone) => !isKept(zone))
      .map((zone) => ({ zone: zones[zone]!.id, samples: names(zone) })),
    presetZones: ascending(presetZones.filter((_, start) => startKept[start]!)),
  };
};

/** `low` and `high` are the same: sizes come from headers, and nothing is guessed. */
const bytesOfDecision = (instrument: Instrument, decision: Decision): InstrumentBytes => {
  const { samples, zones } = instrument;
  const reachedSamples = zones.flatMap((zone, i) => (decision.byUsage[i]! ? zone.samples : []));
  const kept = bytesOf(samples, keptSamples(instrument, decision));
  return {
    full: samples.reduce((sum, sample) => sum + sampleBytes(sample), 0),
    reached: bytesOf(samples, reachedSamples),
    kept,
    unknownSamples: samples.filter(({ present }) => !present).length,
    basis: 'computed',
    low: kept,
    high: kept,
  };
};

const ascending = (values: Iterable<number>): readonly number[] =>
  [...new Set(values)].sort((a, b) => a - b);
