/** The demo's keep file: accepted as it is, refused with any number changed that can be derived. */
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { changed, keepFileText, kindOf, placesIn, type Json } from './places.ts';
import { demoPlan, smallPlan, templatePlan } from './plans.ts';
import { refusalOf } from './read.ts';
import { unnoticed } from './unnoticed.ts';
import { runs } from '../../runs.ts';

let demo: Json;
beforeAll(async () => {
  demo = JSON.parse(keepFileText(await demoPlan())) as Json;
}, 120_000);

test('is accepted', () => expect(refusalOf(demo)).toBeNull());

/** What more than one number would do for, in the demo. */
const onlyLimited: readonly string[] = [
  // Instruments that share samples: how much less than their sum they take is not in the file.
  ...['full', 'reached', 'kept', 'low', 'high'].map((part) => `instruments.*.bytes.${part}`),
  ...['machines.*.bytes.low', 'machines.*.bytes.high', 'total.bytes.reached'],
  ...['instruments.*.samples', 'total.samples'],
  // Zones of several articulations, zones that several copies keep, tracks that are audio.
  ...['instruments.*.articulations.*.zonesKept', 'instruments.*.copies.*.kept.*'],
  ...['printed.zones', 'printed.bytes'],
];

/** Kinds of numbers that one can work out from the rest, as `edits.test.ts` finds them. */
const derivable = async (): Promise<ReadonlySet<string>> => {
  const kinds = new Set<string>();
  for (const made of [await smallPlan(), await templatePlan()]) {
    for (const [path, value] of placesIn(JSON.parse(keepFileText(made)) as Json)) {
      if (typeof value === 'number') kinds.add(kindOf(path));
    }
  }
  for (const kind of [...unnoticed, ...onlyLimited]) kinds.delete(kind);
  return kinds;
};

test('is refused with a number changed', async () => {
  const kinds = await derivable();
  const places = placesIn(demo).filter(
    ([path, value]) => typeof value === 'number' && kinds.has(kindOf(path)),
  );
  expect(places.length).toBeGreaterThan(1000);
  const by = fc.oneof(fc.constantFrom(1, -1), fc.integer({ min: -1000, max: 1000 }));
  fc.assert(
    fc.property(fc.nat(places.length - 1), by, (at, by) => {
      fc.pre(by !== 0);
      const [path, value] = places[at]!;
      const edited = changed(demo, path, (value as number) + by);
      expect(refusalOf(edited), path.join('.')).not.toBeNull();
    }),
    { numRuns: runs(40), endOnFailure: true },
  );
}, 120_000);
