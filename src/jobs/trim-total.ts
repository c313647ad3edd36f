import { plainPath } from '../instruments/sfz/text/paths.ts';
import type { Plan, PlanInstrument } from '../keep/plan.ts';
import { bytesOf } from '../trim/output-file.ts';
import type { Placed } from '../trim/place.ts';
import type { BeforeAfter, TrimmedInstrument, TrimTotal } from '../trim/trim.ts';
import type { PreparedTrim } from './prepare-trim.ts';

/** Bytes of files, those that several use once. */
export const bytesOnDisk = (placed: readonly Placed[]): number => {
  const sizes = new Map(
    placed.flatMap(({ files }) => files.map((file) => [file.path, bytesOf(file)])),
  );
  return [...sizes.values()].reduce((sum, bytes) => sum + bytes, 0);
};

/**
 * All that could be rewritten. Zones and samples of one definition on one machine count once; so do bytes
 * in memory, as far as one of the instruments holds all that the others do.
 *
 * @param small the plan of the smaller instruments
 */
export const trimTotal = (
  { full, placed, template, unwritten }: PreparedTrim,
  rows: readonly TrimmedInstrument[],
  small: Plan,
): TrimTotal => {
  const groups = new Map<string, TrimmedInstrument[]>();
  for (const row of rows) {
    if (row.outcome === 'unwritable') continue;
    const { source } = template.instruments.find(({ id }) => id === row.id)!;
    const key = JSON.stringify([row.machine, plainPath(source.path), row.path]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  const sums = [...groups.values()].map((own) => sumOf(own, full, small));
  const sources = new Map([...unwritten].map(([path, bytes]) => [plainPath(path), bytes]));
  for (const { definition, trimmed } of placed) {
    sources.set(plainPath(definition.path), trimmed.bytesBefore);
  }
  const all = (of: (one: Sum) => BeforeAfter): BeforeAfter => added(sums.map(of));
  return {
    zones: all(({ zones }) => zones),
    samples: all(({ samples }) => samples),
    disk: {
      before: [...sources.values()].reduce((sum, bytes) => sum + bytes, 0),
      after: bytesOnDisk(placed),
    },
    memory: all(({ memory }) => memory),
  };
};

type Sum = Pick<TrimTotal, 'zones' | 'samples' | 'memory'>;

const sumOf = (rows: readonly TrimmedInstrument[], full: Plan, small: Plan): Sum => {
  const [only, ...others] = rows;
  if (others.length === 0) return only!;
  const ids = new Set(rows.map(({ id }) => id));
  const of = (plan: Plan): readonly PlanInstrument[] =>
    plan.instruments.filter(({ id }) => ids.has(id));
  const before = distinct(of(full));
  const after = rows[0]!.path === null ? nothing : distinct(of(small));
  const places = Math.max(...rows.map((row) => row.places));
  return {
    zones: { before: before.zones, after: Math.max(after.zones - places, 0) },
    samples: { before: before.samples, after: after.samples },
    memory: {
      before: joined(rows, (row) => [row.memory.before, row.zones.before], before.zones),
      after: joined(rows, (row) => [row.memory.after, row.zones.after], after.zones - places),
    },
  };
};

const nothing = { zones: 0, samples: 0 };

const distinct = (instruments: readonly PlanInstrument[]) => {
  const zones = instruments.flatMap(({ kept, dropped }) => [...kept, ...dropped]);
  return {
    zones: new Set(zones.map(({ zone }) => zone)).size,
    samples: new Set(zones.flatMap(({ samples }) => samples)).size,
  };
};

/** The largest where it holds all zones; else all of them: presets of a bank seldom share samples. */
const joined = (
  rows: readonly TrimmedInstrument[],
  of: (row: TrimmedInstrument) => readonly [bytes: number, zones: number],
  zones: number,
): number => {
  const whole = rows.map(of).filter(([, own]) => own >= zones);
  const counted = whole.length > 0 ? [whole[0]!] : rows.map(of);
  return counted.reduce((sum, [bytes]) => sum + bytes, 0);
};

const added = (all: readonly BeforeAfter[]): BeforeAfter =>
  all.reduce((sum, one) => ({ before: sum.before + one.before, after: sum.after + one.after }), {
    before: 0,
    after: 0,
  });
