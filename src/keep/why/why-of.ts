import type { Instrument } from '../../instruments/instrument.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import type { Finding } from '../../terms/finding.ts';
import { settledAsPlain } from '../decision.ts';
import type { PlanInstrument } from '../plan.ts';
import { nearestNotes } from './nearest.ts';
import { whyMap } from './why-map.ts';
import type { Nearest, Why, WhyAsked, WhyKept, WhyZone } from './why.ts';
import { unknownAnswers, zoneAnswers } from './zone-answers.ts';

/** All that an answer is made from. */
export interface WhyInput {
  readonly keep: Why['keep'];
  /** As the keep file has it. */
  readonly own: PlanInstrument;
  /** Its definition, of the digest that the keep file names; null where it is not at hand. */
  readonly instrument: Instrument | null;
  /**
   * Usage of the plan's cues in reel order, played with the instrument of `withExactValues`; null
   * where what came nearest is not to be told.
   */
  readonly files: readonly FileUsage[] | null;
  readonly asked: WhyAsked;
  /** Numbers of the zones that `asked` means. */
  readonly zones: ReadonlySet<number>;
  readonly middleC: number;
  readonly findings: readonly Finding[];
}

/** Why zones stay, from the keep file alone, and why others went, from the cues. */
export const whyOf = (input: WhyInput): Why => {
  const { keep, own, instrument, asked, zones, middleC, findings } = input;
  const indexOf = new Map((instrument?.zones ?? []).map(({ id }, index) => [id, index]));
  const indices = [...zones].flatMap((zone) => indexOf.get(zone) ?? []);
  const answers = instrument === null ? null : zoneAnswers(instrument, new Set(indices));
  const answersOf = (one: {
    readonly zone: number;
    readonly articulations: readonly number[];
  }): WhyZone => ({
    articulationNames: one.articulations.map((each) => own.articulations[each]!.name),
    articulationNotes: one.articulations.reduce(
      (sum, each) => sum + own.articulations[each]!.notes,
      0,
    ),
    ...(answers?.get(indexOf.get(one.zone)!) ?? unknownAnswers),
  });
  const dropped = own.dropped.filter(({ zone }) => zones.has(zone));
  const near = nearestOf(
    input,
    dropped.flatMap(({ zone }) => indexOf.get(zone) ?? []),
  );
  return {
    schema: 'keepset/why@1',
    keep,
    instrument: own.id,
    machine: own.machine,
    middleC,
    asked,
    kept: own.kept
      .filter(({ zone }) => zones.has(zone))
      .map((one) => ({ ...one, ...answersOf(one), copies: copiesWith(own, one.zone) })),
    dropped: dropped.map((one) => ({
      zone: one.zone,
      key: one.key,
      samples: one.samples,
      bytes: one.bytes,
      ...answersOf(one),
      nearest: near?.get(indexOf.get(one.zone)!) ?? null,
    })),
    map: instrument === null ? null : whyMap(instrument, own, zones, asked),
    findings,
  };
};

const copiesWith = ({ copies }: PlanInstrument, zone: number): WhyKept['copies'] =>
  copies.some(({ kept }) => kept !== null)
    ? copies.filter(({ kept }) => kept?.includes(zone) === true).map(({ name }) => name)
    : null;

const nearestOf = (
  { own, instrument, files }: WhyInput,
  zones: readonly number[],
): ReadonlyMap<number, readonly Nearest[]> | null =>
  instrument === null || files === null
    ? null
    : nearestNotes({
        instrument,
        files,
        planned: own.copies,
        excluded: settledAsPlain(own.settle),
        zones: new Set(zones),
      });
