import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mergeUsage, MergeRefused } from '../../src/playback/merge-usage.ts';
import { usageKey, type FileUsage, type ZoneUsage } from '../../src/playback/zone-usage.ts';
import { cc, instrumentOf, off, on, start, usageOf } from './hand-made.ts';
import { planWhole } from './whole-cue.ts';

const instrument = instrumentOf(
  {
    signals: [
      { kind: 'switch', keys: [[24, 26]], initial: null },
      { kind: 'controller', number: 1, initial: null },
    ],
    gates: [24, 25, 26].map((key) => [{ signal: 0, tests: [{ lo: key, hi: key, doubt: 0 }] }]),
    starts: [24, 25, 26].map((_, gate) =>
      start(gate, { keys: [60, 64], gate, fades: [{ signal: 1, lo: 0, hi: 60 + 20 * gate }] }),
    ),
  },
  [1, 2, 4],
);

const event = fc.oneof(
  fc
    .tuple(fc.nat(900), fc.constantFrom(24, 25, 26, 60, 62, 64))
    .map(([tick, key]) => on(tick, key)),
  fc.tuple(fc.nat(900), fc.constantFrom(60, 62, 64)).map(([tick, key]) => off(tick, key)),
  fc.tuple(fc.nat(900), fc.nat(127)).map(([tick, value]) => cc(tick, 1, value)),
);
const cue = fc.tuple(fc.nat(5), fc.array(event, { maxLength: 25 })).map(([number, events]) => {
  const sorted = [...events].sort((a, b) => a.tick - b.tick);
  // The digest stands for the content: two cues with one name have the same events in real life.
  const file = usageOf(instrument, sorted, `1m${String(number)}`);
  return { ...file, sha256: JSON.stringify(sorted) };
});

const of = (files: readonly FileUsage[]): ZoneUsage =>
  files.reduce<ZoneUsage>((all, file) => mergeUsage(all, single(file)), {
    ...empty,
    instruments: {},
  });
const empty: ZoneUsage = {
  schema: 'keepset/zone-usage@1',
  template: null,
  instruments: {},
  controllerRooms: [],
  everyPlace: false,
  choices: { without: [], newest: false, acceptPartial: [], split: null },
  reel: [],
  leftOut: [],
  sources: {},
  files: {},
};
const single = (file: FileUsage): ZoneUsage => ({
  ...empty,
  instruments: { [instrument.id]: instrument.sha256 },
  files: { [usageKey(file)]: file },
});
const usage = fc.array(cue, { maxLength: 4 }).map(of);
const text = JSON.stringify;

describe('merging usage', () => {
  test('in any order, in any grouping, and twice over, byte for byte', () => {
    fc.assert(
      fc.property(usage, usage, usage, (a, b, c) => {
        expect(text(mergeUsage(a, b))).toBe(text(mergeUsage(b, a)));
        expect(text(mergeUsage(mergeUsage(a, b), c))).toBe(text(mergeUsage(a, mergeUsage(b, c))));
        expect(text(mergeUsage(a, a))).toBe(text(a));
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  test('it is plain JSON, and the plan of it is the plan of one run', () => {
    const planOf = ({ files }: ZoneUsage): string =>
      text(planWhole(instrument, Object.values(files)));
    fc.assert(
      fc.property(usage, usage, (a, b) => {
        const sent = JSON.parse(text(b)) as ZoneUsage;
        const together = of([...Object.values(a.files), ...Object.values(b.files)]);
        expect(planOf(mergeUsage(a, sent))).toBe(planOf(together));
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  test('what a copy chooses in one cue answers for its start in another', () => {
    const late = usageOf(instrument, [on(0, 60), off(1, 60)], '1m1');
    const choosing = usageOf(instrument, [on(0, 25), off(1, 25), on(2, 62), off(3, 62)], '1m2');
    const kept = (files: readonly FileUsage[]) =>
      planWhole(instrument, files).instruments[0]!.kept.map(({ zone, reasons }) => [
        zone,
        ...reasons,
      ]);
    expect(kept([late])).toEqual([0, 1, 2].map((zone) => [zone, 'no-switch']));
    expect(kept([late, choosing])).toEqual([[1, 'played']]);
    const other = usageOf(instrument, [on(0, 25), off(1, 25)], '1m3');
    expect(kept([late, other])).toEqual([[1, 'start-state']]);
  });

  test('refused across templates and instrument digests', () => {
    const [a, b] = [single(usageOf(instrument, [])), single(usageOf(instrument, [], '1m2'))];
    expect(() => mergeUsage(a, { ...b, template: 'other' })).toThrow(MergeRefused);
    expect(() => mergeUsage(a, { ...b, instruments: { [instrument.id]: 'other' } })).toThrow(
      MergeRefused,
    );
  });
});
