import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { makePlan } from '../../src/keep/make-plan.ts';
import { zoneDoubts } from '../../src/keep/reach.ts';
import { asExported, type PlayOptions } from '../../src/playback/play-copy.ts';
import { mergeUsage } from '../../src/playback/merge-usage.ts';
import { usageKey, type FileUsage, type ZoneUsage } from '../../src/playback/zone-usage.ts';
import type { Template } from '../../src/template/template.ts';
import { doubtNames, doubtSet } from '../../src/terms/doubt.ts';
import type { SfzReel } from '../oracle/sfz-data.ts';
import { randomReel, randomSfz } from '../oracle/sfz-random.ts';
import { readText, sfzText, usageOfSfz } from './sfz-cue.ts';
import { wholeTemplate } from './whole-cue.ts';
import { runs } from '../runs.ts';

/** What must hold of every plan, whatever the instrument and the reel (design, sections 2 and 6). */

const asked = process.env['KEEPSET_SFZ_RUNS'];
const sample = asked === undefined ? { numRuns: runs(60), seed: 21 } : { numRuns: Number(asked) };

const usages = (
  instrument: Instrument,
  reel: SfzReel,
  options: PlayOptions = asExported,
): readonly FileUsage[] =>
  reel.map((cue, i) => usageOfSfz(instrument, cue, `1m${String(i + 1)}`, options));

const kept = (
  instrument: Instrument,
  files: readonly FileUsage[],
  over: Partial<Template> = {},
): readonly number[] =>
  makePlan({
    template: { ...wholeTemplate(instrument), ...over },
    instruments: new Map([[instrument.id, instrument]]),
    files,
    reel: {
      without: [],
      newest: false,
      acceptPartial: [],
      allowUnmapped: false,
      split: null,
    },
    isPartial: false,
    rare: null,
    headroomCurve: false,
    findings: [],
  }).instruments[0]!.kept.map(({ zone }) => zone);

const holds = (check: (instrument: Instrument, reel: SfzReel) => void): Promise<void> =>
  fc.assert(
    fc.asyncProperty(randomSfz(), randomReel(), async (data, reel) => {
      check(await readText(sfzText(data)), reel);
    }),
    sample,
  );

const superset = (more: readonly number[], less: readonly number[]): void => {
  expect(more).toEqual(expect.arrayContaining([...less]));
};

describe('SFZ plans', () => {
  test('more headroom never removes a zone', () =>
    holds((instrument, reel) => {
      const files = usages(instrument, reel, { ...asExported, controllerRoom: 9 });
      const room = (keys: number, velocity: number, controller: number): readonly number[] =>
        kept(instrument, files, { headroom: { keys, velocity, controller } });
      const none = room(0, 0, 0);
      const some = room(1, 8, 4);
      superset(some, none);
      superset(room(2, 20, 9), some);
    }));

  test('more slack never removes a zone', () =>
    holds((instrument, reel) => {
      const slack = (seconds: number): readonly number[] =>
        kept(instrument, usages(instrument, reel, { ...asExported, slack: seconds }));
      const little = slack(0.02);
      superset(little, slack(0));
      superset(slack(0.3), little);
    }));

  test('more events never remove a zone, but where a switch ends the doubt that there is none', () =>
    holds((instrument, reel) => {
      const [first] = reel;
      const half = { ...first!, events: first!.events.slice(0, first!.events.length / 2) };
      const before = zoneDoubts(instrument, usages(instrument, [half]));
      const after = zoneDoubts(instrument, usages(instrument, reel));
      const unsure = doubtSet('no-switch');
      before.forEach((sets, zone) => {
        if (sets.some((set) => (set & unsure) === 0)) expect(after[zone]).not.toEqual([]);
      });
    }));

  test('an answer to a doubt never adds a zone', () =>
    holds((instrument, reel) => {
      const files = usages(instrument, reel);
      const open = kept(instrument, files);
      for (const name of doubtNames) {
        if (name === 'damage') continue;
        superset(open, kept(instrument, files, { settle: { [name]: 'plain' } }));
        expect(kept(instrument, files, { settle: { [name]: 'accept' } })).toEqual(open);
      }
    }));

  test('usage merges in any order and any grouping, and twice over', () =>
    holds((instrument, reel) => {
      const files = usages(instrument, [...reel, ...reel.slice(0, 1)]);
      const single = (file: FileUsage): ZoneUsage => ({
        schema: 'keepset/zone-usage@1',
        template: null,
        instruments: { [instrument.id]: instrument.sha256 },
        controllerRooms: [],
        everyPlace: false,
        choices: { without: [], newest: false, acceptPartial: [], split: null },
        reel: [],
        leftOut: [],
        sources: {},
        files: { [usageKey(file)]: file },
      });
      const forward = files.map(single).reduce(mergeUsage);
      const backward = [...files].reverse().map(single).reduce(mergeUsage);
      expect(JSON.stringify(backward)).toBe(JSON.stringify(forward));
      expect(JSON.stringify(mergeUsage(forward, backward))).toBe(JSON.stringify(forward));
      const sent = JSON.parse(JSON.stringify(forward)) as ZoneUsage;
      expect(kept(instrument, Object.values(sent.files))).toEqual(kept(instrument, files));
    }));
});
