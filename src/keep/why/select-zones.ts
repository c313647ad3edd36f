import { findArticulation } from '../../instruments/find-articulation.ts';
import type { Instrument } from '../../instruments/instrument.ts';
import { fold } from '../../notation/fold.ts';
import { nearest } from '../../notation/nearest.ts';
import { UsageError } from '../../terms/errors.ts';
import { keyLabel, keyRangeLabel } from '../../terms/key.ts';
import { contains, type Range } from '../../terms/range.ts';
import type { DroppedZone, KeptZone, PlanInstrument } from '../plan.ts';
import type { WhyAsked } from './why.ts';
import { zoneAnswers } from './zone-answers.ts';

/** Names in a hint: more are not read. */
const mostNames = 12;

/**
 * The zones of an instrument that a person asks about: those that fit all of what was said.
 *
 * @param own as the keep file has it
 * @param instrument its definition; null where it is not at hand
 * @param middleC the octave of key 60, for what is said of keys
 * @returns the numbers by which the source knows them
 * @throws {UsageError} when nothing fits, or keys are asked for without a definition
 */
export const selectZones = (
  own: PlanInstrument,
  instrument: Instrument | null,
  asked: WhyAsked,
  middleC: number,
): ReadonlySet<number> => {
  let zones: readonly (KeptZone | DroppedZone)[] = [...own.kept, ...own.dropped];
  const narrow = (fitting: typeof zones, refused: () => UsageError): void => {
    if (fitting.length === 0) throw refused();
    zones = fitting;
  };
  if (asked.zone !== null) {
    narrow(
      zones.filter(({ zone }) => zone === asked.zone),
      () => noSuchZone(own, asked.zone!),
    );
  }
  const articulations =
    asked.articulation === null ? null : articulationsNamed(own, asked.articulation);
  if (articulations !== null) {
    narrow(
      zones.filter((one) => one.articulations.some((each) => articulations.includes(each))),
      () => togetherNothing(own),
    );
  }
  if (asked.sample !== null) {
    const wanted = fold(asked.sample);
    const named = (list: typeof zones): typeof zones =>
      list.filter(({ samples }) => samples.some((sample) => namesOf(sample).includes(wanted)));
    if (named([...own.kept, ...own.dropped]).length === 0) throw noSuchSample(own, asked.sample);
    narrow(named(zones), () => togetherNothing(own));
  }
  if (asked.key !== null || asked.velocity !== null) {
    if (instrument === null) throw withoutDefinition();
    const answering = answeringZones(instrument, asked, articulations);
    narrow(
      zones.filter(({ zone }) => answering.has(zone)),
      () => nothingAnswers(own, instrument, asked, zones, middleC),
    );
  }
  return new Set(zones.map(({ zone }) => zone));
};

const articulationsNamed = ({ id, articulations }: PlanInstrument, name: string) => {
  const { indices, near } = findArticulation(articulations, name);
  if (indices.length > 0) return indices;
  throw new UsageError(
    `${id} has no articulation "${name}".`,
    didYouMean(
      near,
      articulations.map((one) => one.name),
      'It has',
    ),
  );
};

/** What a sample may be called: as the source has it, without its number, without its folders. */
const namesOf = (sample: string): readonly string[] =>
  [sample, sample.replace(/^\d+:/, ''), sample.replace(/^.*[/\\]/s, '')].map(fold);

/** Zones one start of which fits key, velocity and articulation. */
const answeringZones = (
  { program, zones }: Instrument,
  { key, velocity }: WhyAsked,
  articulations: readonly number[] | null,
): ReadonlySet<number> => {
  const found = new Set<number>();
  for (const { zone, event, articulation, keys, velocities } of program.starts) {
    if (event === 'change' || articulations?.includes(articulation) === false) continue;
    if (key !== null && !contains(keys, key)) continue;
    if (velocity !== null && !contains(velocities, velocity)) continue;
    found.add(zones[zone]!.id);
  }
  return found;
};

const noSuchZone = ({ id, kept, dropped }: PlanInstrument, zone: number): UsageError => {
  const all = [...kept, ...dropped].map((one) => one.zone);
  const [lo, hi] = all.reduce<Range>(
    ([least, most], one) => [Math.min(least, one), Math.max(most, one)],
    [Infinity, -Infinity],
  );
  return new UsageError(
    `${id} has no zone ${String(zone)}.`,
    all.length === 0
      ? 'It has none at all.'
      : `It has ${String(all.length)}, with numbers from ${String(lo)} to ${String(hi)}.`,
  );
};

const noSuchSample = ({ id, kept, dropped }: PlanInstrument, name: string): UsageError => {
  const samples = [...new Set([...kept, ...dropped].flatMap((one) => one.samples))];
  const spoken = samples.map((sample) => sample.replace(/^\d+:/, '').replace(/^.*[/\\]/s, ''));
  return new UsageError(
    `${id} has no sample "${name}".`,
    didYouMean(nearest(name, samples) ?? nearest(name, spoken), samples, 'Its samples are'),
  );
};

const togetherNothing = ({ id }: PlanInstrument): UsageError =>
  new UsageError(
    `No zone of ${id} fits all of that together.`,
    'Leave out one of --zone, --articulation and --sample to see what there is.',
  );

const withoutDefinition = (): UsageError =>
  new UsageError(
    'The keep file does not say which keys and velocities a zone answers to.',
    'Name the template of the plan (--template) or its instrument (--instrument), or ask by --zone, --articulation or --sample.',
  );

/** Says to what the zones answer that fit everything else. */
const nothingAnswers = (
  { id }: PlanInstrument,
  instrument: Instrument,
  { key, velocity }: WhyAsked,
  left: readonly { readonly zone: number }[],
  middleC: number,
): UsageError => {
  const ids = new Set(left.map(({ zone }) => zone));
  const indices = instrument.zones.flatMap((one, index) => (ids.has(one.id) ? [index] : []));
  const answers = [...zoneAnswers(instrument, new Set(indices)).values()];
  const wide = (ranges: readonly (Range | null)[]): Range | null =>
    ranges.reduce<Range | null>(
      (known, range) =>
        known === null || range === null
          ? (known ?? range)
          : [Math.min(known[0], range[0]), Math.max(known[1], range[1])],
      null,
    );
  const keys = wide(answers.map((one) => one.keys));
  const velocities = wide(answers.map((one) => one.velocities));
  const what = [
    ...(key === null ? [] : [keyLabel(key, middleC)]),
    ...(velocity === null ? [] : [`velocity ${String(velocity)}`]),
  ].join(' with ');
  return new UsageError(
    `No zone of ${id} that fits answers to ${what}.`,
    keys === null || velocities === null
      ? 'Only messages start the zones that fit the rest, no keys.'
      : `Those that fit the rest lie in ${keyRangeLabel(keys, middleC)}, velocities ${velocities.join('-')}.`,
  );
};

const didYouMean = (near: string | null, names: readonly string[], there: string): string => {
  if (near !== null) return `Did you mean "${near}"?`;
  const rest = names.length - mostNames;
  const shown = names.slice(0, mostNames).join(', ');
  return `${there} ${shown}${rest > 0 ? ` and ${String(rest)} more` : ''}.`;
};
