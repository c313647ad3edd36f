import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { draft } from '../../src/jobs/draft.ts';
import { prepareName } from '../../src/template/patterns/match-pattern.ts';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { trackName } from './names.ts';
import { routeAll, templateOf } from './route-all.ts';
import { cueOf, type TestTrack } from './track-file.ts';

const track: fc.Arbitrary<TestTrack> = fc.record({
  name: fc.option(trackName, { freq: 12 }),
  channel: fc.integer({ min: 1, max: 3 }),
  keys: fc.array(fc.integer({ min: 0, max: 127 }), { maxLength: 4 }),
});

const cues = fc.array(fc.array(track, { maxLength: 12 }), { minLength: 1, maxLength: 3 });

const filesOf = (all: readonly (readonly TestTrack[])[]): Record<string, Uint8Array> =>
  Object.fromEntries(all.map((tracks, i) => [`cues/1m${i + 1}.mid`, cueOf(tracks)]));

const folded = (name: string | null): string => prepareName(name ?? '').folded;

test('any draft is a template, and its rules take each part to the instrument of its group', async () => {
  await fc.assert(
    fc.asyncProperty(cues, async (all) => {
      const scores = filesOf(all);
      const { text, groups } = await draft({ cues: ['cues'], files: new MemoryFiles(scores) });
      const template = await templateOf(text);
      const log = new RouteLog();
      const wanted = new Map<string, Set<string | null>>();
      for (const { instrument, tracks } of groups) {
        for (const name of tracks.map(folded)) {
          wanted.set(name, (wanted.get(name) ?? new Set()).add(instrument));
        }
      }
      const used = new Set<string>();
      for (const score of Object.values(scores)) {
        const { destinations, unmapped } = routeAll(template, score, log);
        expect(unmapped).toEqual([]);
        for (const { name, instruments } of destinations) {
          expect(instruments.length).toBeLessThan(2);
          expect([...wanted.get(folded(name))!]).toContain(instruments[0] ?? null);
          for (const id of instruments) used.add(id);
        }
      }
      // No instrument and no rule too many.
      expect(template.instruments.filter(({ id }) => !used.has(id))).toEqual([]);
      expect(log.findings(template)).toEqual([]);
      if (used.size > 0) expect(template.findings).toEqual([]);
    }),
    { numRuns: 200 },
  );
});

test('no name gets out of its comment or its quotes', async () => {
  await fc.assert(
    fc.asyncProperty(cues, async (all) => {
      const { text } = await draft({ cues: ['cues'], files: new MemoryFiles(filesOf(all)) });
      expect(text).not.toMatch(/[^\n\P{Cc}]|[\p{Cf}\p{Zl}\p{Zp}]/u);
      const keys = Object.keys(parse(text) as object);
      const known = ['cues', 'middle-c', 'players', 'names', 'instruments', 'routes'];
      expect(known.filter((key) => keys.includes(key))).toEqual(keys);
    }),
  );
});
