import type { Plan } from '../../src/keep/plan.ts';

/** `3:tone-2` in a bank, `wav/tone-2.wav` in SFZ. */
const bare = (name: string): string => /tone-\d+/.exec(name)![0];

/**
 * What a plan says of its one instrument that does not depend on how the instrument is written: zones
 * and samples by their numbers in the model.
 *
 * @param zoneOf the model's number of a zone
 * @param nameOf the model's name of a sample
 */
export const whatIsKept = (
  { instruments: [one], doubts, together, doubtsAll, machines, total, cues }: Plan,
  zoneOf = (zone: number): number => zone,
  nameOf = bare,
) => {
  const { zones, zonesKept, samples, samplesKept, bytes, kept, dropped } = one!;
  const byZone = <Row extends { readonly zone: number; readonly samples: readonly string[] }>(
    rows: readonly Row[],
  ) =>
    rows
      .map((row) => ({ ...row, key: '', zone: zoneOf(row.zone), samples: row.samples.map(nameOf) }))
      .sort((a, b) => a.zone - b.zone);
  return {
    ...{ zones, zonesKept, samples, samplesKept, bytes },
    ...{ kept: byZone(kept), dropped: byZone(dropped) },
    // Without those that stand only beside an answered one: of that the formats do not say the same.
    doubts: doubts.filter(({ settled, zones, bytes }) => settled === null && zones + bytes > 0),
    ...{ together, doubtsAll, machines, total, cues },
  };
};

/** The same, with copies and articulations. @param layers what they consist of, too */
export const wholePlan = (made: Plan, layers: boolean) => ({
  ...whatIsKept(made),
  copies: copiesOf(made),
  articulations: made.instruments[0]!.articulations.map((one) => ({
    ...one,
    layers: layers ? one.layers : [],
  })),
});

/** Every doubt that keeps something. */
export const doubtsIn = ({ instruments }: Plan): readonly string[] =>
  instruments.flatMap(({ kept }) => kept.flatMap(({ doubts }) => doubts.flat()));

/** What was chosen goes by the numbers of signals, which are each format's own. */
export const copiesOf = ({ instruments }: Plan) =>
  instruments[0]!.copies.map(({ name, notes, zonesKept, kept }) => ({
    ...{ name, notes, zonesKept, kept },
  }));
