/**
 * The central promise, on all of the demo: whichever zone of reason `played` is taken out of the keep
 * file, holding the reel against it names just that zone.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { demoFiles } from '../../../src/demo/demo.ts';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { chooseTemplate } from '../../../src/jobs/choose-template.ts';
import { loadInstruments } from '../../../src/jobs/load-instruments.ts';
import { plan } from '../../../src/jobs/plan.ts';
import { playReel } from '../../../src/jobs/play-reel.ts';
import { findMisses } from '../../../src/keep/check/find-misses.ts';
import { keptZones } from '../../../src/keep/check/kept-zones.ts';
import { settledAsPlain } from '../../../src/keep/decision.ts';
import { withoutPrinted } from '../../../src/keep/subjects.ts';
import type { Plan } from '../../../src/keep/plan.ts';
import { reachedClasses, type ReachedClass } from '../../../src/keep/reach.ts';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { withoutZones } from './rebuilt.ts';

const files = new MemoryFiles(
  Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes])),
);

let made: Plan;
let instruments: ReadonlyMap<string, Instrument>;
const reached = new Map<string, readonly ReachedClass[]>();

beforeAll(async () => {
  made = await plan({ template: 'keepset.yaml', files });
  const { template } = await chooseTemplate(files, { template: 'keepset.yaml' });
  instruments = await loadInstruments(files, template);
  const { usage } = await playReel(files, template, instruments, {
    cues: [],
    without: [],
    newest: false,
    acceptPartial: [],
    split: null,
    isPartial: false,
  });
  const played = usage.map(withoutPrinted);
  for (const [id, instrument] of instruments) {
    reached.set(id, [...reachedClasses(instrument, played)]);
  }
}, 120_000);

/** What is missing of an instrument, by zone, when the keep file is `keep`. */
const missing = (keep: Plan, id: string): readonly number[] => {
  const instrument = instruments.get(id)!;
  const planned = keep.instruments.find((one) => one.id === id)!;
  const zones = keptZones(instrument, planned);
  const { misses } = findMisses(reached.get(id)!, zones, settledAsPlain(planned.settle));
  const found = misses.map(({ zone }) => instrument.zones[zone]!.id);
  return [...new Set(found)].sort((a, b) => a - b);
};

const playedOf = (id: string): readonly number[] =>
  made.instruments
    .find((one) => one.id === id)!
    .kept.flatMap(({ zone, reasons }) => (reasons.includes('played') ? [zone] : []));

describe('what the plan keeps', () => {
  test('is all that the reel needs', () => {
    for (const { id } of made.instruments) expect([id, missing(made, id)]).toEqual([id, []]);
  });

  /** So many parts that every zone is taken out once, and its neighbours stay. */
  const parts = 16;

  test.each(Array.from({ length: parts }, (_, part) => part))(
    `less a sixteenth of what is played: just that is missed (%i)`,
    (part) => {
      let named = 0;
      for (const { id } of made.instruments) {
        const removed = playedOf(id).filter((_, i) => i % parts === part);
        const keep = withoutZones(made, new Map([[id, new Set(removed)]]));
        expect([id, missing(keep, id)]).toEqual([id, removed]);
        named += removed.length;
      }
      expect(named).toBeGreaterThan(100);
    },
    60_000,
  );

  test('less whatever only a doubt keeps: that is missed too', () => {
    let named = 0;
    for (const { id, kept } of made.instruments) {
      const removed = kept.flatMap(({ zone, doubts }) =>
        doubts.length > 0 && !doubts.some((set) => set.length === 0) ? [zone] : [],
      );
      const keep = withoutZones(made, new Map([[id, new Set(removed)]]));
      expect([id, missing(keep, id)]).toEqual([id, removed]);
      named += removed.length;
    }
    expect(named).toBeGreaterThan(100);
  });

  test('less what was added around it: nothing is missed', () => {
    let taken = 0;
    for (const { id, kept } of made.instruments) {
      const removed = kept.flatMap(({ zone, reasons }) =>
        ['pinned', 'headroom', 'grain', 'linked'].includes(reasons[0]!) ? [zone] : [],
      );
      const keep = withoutZones(made, new Map([[id, new Set(removed)]]));
      expect([id, missing(keep, id)]).toEqual([id, []]);
      taken += removed.length;
    }
    expect(taken).toBeGreaterThan(100);
  });
});
