import { beforeAll, expect, test } from 'vitest';
import { finding, type Finding } from '../../../src/terms/finding.ts';
import { changed, keepFileText, type Json } from './places.ts';
import { smallPlan } from './plans.ts';
import { refusalOf } from './read.ts';

let base: Json;
beforeAll(async () => {
  base = JSON.parse(keepFileText(await smallPlan())) as Json;
}, 60_000);

const unmapped = finding('warning', 'part-unmapped', null, {
  ...{ cue: '1m1', tracks: ['Oboe', null], notes: 3 },
});
const partial = finding('warning', 'cue-looks-partial', null, {
  ...{ cue: '1m1', reason: 'markers', tracks: [], missing: 0, version: null, seconds: 4.5 },
});

/** A keep file with this finding and no other, and one thing about it changed. */
const withFinding = (found: Finding, key: string, value: Json | undefined): Json =>
  changed(
    changed(base, ['findings'], [JSON.parse(JSON.stringify(found)) as Json]),
    ['findings', 0, ...key.split('.')],
    value,
  );

test.each<readonly [Finding, string, Json | undefined]>([
  [unmapped, 'args.tracks', undefined],
  [unmapped, 'args.tracks', 2],
  [unmapped, 'args.tracks', ['Oboe', 7]],
  [unmapped, 'args.cue', undefined],
  [unmapped, 'args.notes', 'three'],
  [unmapped, 'args', undefined],
  [unmapped, 'args', []],
  [partial, 'args.cue', undefined],
  [partial, 'args.tracks', undefined],
  [partial, 'args.reason', 'weather'],
  [partial, 'args.seconds', 'long'],
])('%o is refused with another %s: %o', (found, key, value) => {
  expect(refusalOf(withFinding(found, 'severity', 'note'))).toBeNull();
  const refused = refusalOf(withFinding(found, key, value));
  expect(refused?.map(({ code }) => code)).toContain('keep-file-shape');
  expect(refused?.map(({ args }) => (args as { at: string }).at)[0]).toContain(
    `findings[0].${key}`,
  );
});

test('what a later version may write is let pass', () => {
  expect(refusalOf(withFinding(unmapped, 'code', 'part-unheard-of'))).toBeNull();
  expect(refusalOf(withFinding(unmapped, 'code', 'constructor'))).toBeNull();
  expect(refusalOf(withFinding(unmapped, 'args.more', 'words'))).toBeNull();
});
