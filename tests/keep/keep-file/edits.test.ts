/** A keep file in which one thing was changed by hand is refused, unless nothing can tell. */
import { beforeAll, expect, test } from 'vitest';
import type { Stated } from '../../../src/terms/findings/keep-files.ts';
import { changed, keepFileText, kindOf, placesIn, type Json } from './places.ts';
import { smallPlan, templatePlan } from './plans.ts';
import { refusalOf } from './read.ts';
import { unnoticed } from './unnoticed.ts';

let small: Json;
let template: Json;
beforeAll(async () => {
  small = JSON.parse(keepFileText(await smallPlan())) as Json;
  template = JSON.parse(keepFileText(await templatePlan())) as Json;
}, 60_000);

type Path = readonly (string | number)[];

/** A place as in `instruments.0.kept.1.notes`. */
const pathOf = (text: string): Path =>
  text.split('.').map((step) => (/^\d+$/u.test(step) ? Number(step) : step));

const valueAt = (document: Json, path: Path): Json =>
  path.reduce((value, step) => (value as Record<string | number, Json>)[step]!, document);

const rows: readonly (readonly [
  base: 'small' | 'template',
  path: string,
  edit: (value: Json) => Json | undefined,
  what: Stated,
])[] = [
  // A row, a column or a name taken out, put in or put elsewhere.
  ['small', 'instruments.0.kept.0', () => undefined, 'zones'],
  ['template', 'instruments.1.dropped.0', () => undefined, 'zones'],
  ['small', 'instruments.0.kept', (kept) => [...(kept as Json[]), (kept as Json[])[0]!], 'zone'],
  ['small', 'instruments.0.kept.0.samples', () => [], 'samples-kept'],
  ['small', 'instruments.0.kept.0.samples', () => ['8:One', '9:Other'], 'samples'],
  ['small', 'instruments.0.kept.0.articulations', () => [7], 'zone-articulation'],
  ['small', 'instruments.0.kept.0.articulations', () => [0, 0], 'zone-articulation'],
  ['small', 'instruments.0.kept.0.articulations', () => [], 'articulation-zones'],
  ['small', 'instruments.0.kept.0.reasons', () => [], 'zone-reasons'],
  ['small', 'instruments.0.kept.0.reasons', () => ['order'], 'zone-reasons'],
  ['small', 'instruments.0.kept.0.reasons', () => ['grain'], 'zone-reasons'],
  ['small', 'instruments.0.kept.0.reasons', () => ['headroom'], 'zone-reasons'],
  ['small', 'instruments.0.kept.0.reasons', () => ['pinned'], 'zone-reasons'],
  ['small', 'instruments.0.kept.0.reasons', () => ['mutes'], 'zone-samples'],
  ['small', 'instruments.0.kept.0.doubts', () => [['tail']], 'zone-reasons'],
  ['small', 'instruments.0.kept.0.doubts', () => [['tail'], []], 'zone-doubts'],
  ['small', 'instruments.0.kept.0.cues', () => ({}), 'zone-notes'],
  ['small', 'instruments.0.kept.0.cues', () => ({ '9m9': 2 }), 'zone-cue'],
  ['small', 'instruments.0.kept.0.cues', () => ({ constructor: 2 }), 'zone-cue'],
  ['small', 'instruments.0.kept.0.witnesses', () => [], 'zone-witnesses'],
  ['small', 'instruments.0.kept.0.witnesses.0.cue', () => '9m9', 'zone-witness'],
  ['small', 'instruments.0.kept.0.notes', () => 40, 'zone-notes'],
  ['small', 'instruments.0.kept.0.bytes', () => 99_999, 'zone-bytes'],
  ['small', 'instruments.0.samples', () => 1, 'samples'],
  ['small', 'instruments.0.samplesKept', () => 1, 'samples-kept'],
  ['small', 'instruments.0.zones', () => 5, 'zones'],
  ['small', 'instruments.0.zonesKept', () => 1, 'zones-kept'],
  ['small', 'instruments.0.bytes.low', () => 0, 'bytes-low'],
  ['small', 'instruments.0.bytes.high', () => 99_999, 'bytes-high'],
  ['small', 'instruments.0.bytes.kept', () => 99_999, 'bytes-low'],
  ['small', 'instruments.0.bytes.reached', () => 99_999, 'bytes-reached'],
  ['small', 'instruments.0.bytes.unknownSamples', () => 9, 'samples-unknown'],
  ['small', 'instruments.0.bytes.residual', () => 1, 'residual'],
  ['small', 'instruments.0.bytes.basis', () => 'fitted', 'readings'],
  ['small', 'instruments.0.presetZones', () => [1, 1], 'preset-zone'],
  ['small', 'instruments.0.machine', () => 'other', 'instrument-machine'],
  ['small', 'instruments', (all) => [...(all as Json[]), (all as Json[])[0]!], 'instrument'],
  ['small', 'instruments.0.copies.0.kept', () => [1], 'copy-zone'],
  ['small', 'instruments.0.copies.0.kept', () => [], 'copy-zones'],
  ['small', 'instruments.0.copies.0.zonesKept', () => 0, 'copy-zones'],
  ['small', 'instruments.0.copies.0.chosen.0.cue', () => '9m9', 'copy-cue'],
  ['small', 'instruments.0.articulations.0.zones', () => 1, 'articulation-zones'],
  ['small', 'instruments.0.articulations.0.zonesKept', () => 1, 'articulation-zones-kept'],
  ['small', 'instruments.0.articulations.0.keys', () => [], 'articulation-velocities'],
  ['small', 'instruments.0.articulations.0.notes', () => 0, 'articulation-keys'],
  ['small', 'instruments.0.articulations.0.bytes.kept', () => 99_999, 'articulation-bytes'],
  ['small', 'instruments.0.articulations.0.layers.0.zones', () => 3, 'layer-zones'],
  ['small', 'instruments.0.articulations.0.layers.0.zonesKept', () => 1, 'layer-zones-kept'],
  ['small', 'instruments.0.settle', () => ({ damage: 'plain' }), 'answer'],
  ['small', 'settings.settle', () => ({ damage: 'accept' }), 'answer'],
  ['small', 'settings.settle', () => ({ tail: 'accept' }), 'answer'],
  ['small', 'settings.instrument', () => null, 'instrument-alone'],
  ['small', 'template', () => ({ sha256: 'a'.repeat(64) }), 'instrument-alone'],
  ['small', 'cues.0', () => undefined, 'zone-cue'],
  ['small', 'cues.0.id', () => '1m2 v1', 'cue'],
  ['small', 'cues.0.tracks.silent', () => ['Keys'], 'cue-track'],
  ['small', 'versions.0.versions.0', () => '1m2 v7', 'version'],
  ['small', 'versions.0.versions.0', () => undefined, 'versions'],
  ['small', 'versions.0.zones', () => 50, 'versions-zones'],
  ['small', 'versions.0.bytes', () => 99_999, 'versions-bytes'],
  ['small', 'machines.0.id', () => 'other', 'instrument-machine'],
  ['small', 'machines.0.bytes.full', () => 1, 'machine-full'],
  ['small', 'machines.0.bytes.kept', () => 1, 'machine-kept'],
  ['small', 'machines.0.bytes.low', () => 1, 'machine-low'],
  ['small', 'machines.0.bytes.high', () => 99_999, 'machine-high'],
  ['small', 'machines.0.fits', () => true, 'machine-fits'],
  ['small', 'total.zones', () => 1, 'total-zones'],
  ['small', 'total.zonesKept', () => 1, 'total-zones-kept'],
  ['small', 'total.samples', () => 1, 'total-samples'],
  ['small', 'total.samples', () => 5, 'total-samples'],
  ['small', 'total.samplesKept', () => 1, 'total-samples-kept'],
  ['small', 'total.bytes.full', () => 1, 'total-full'],
  ['small', 'total.bytes.reached', () => 1, 'total-reached'],
  ['small', 'total.bytes.kept', () => 1, 'total-kept'],
  ['small', 'total.bytes.saved', () => 1, 'total-saved'],
  ['small', 'doubts', (all) => [...(all as Json[]), (all as Json[])[0]!], 'doubt'],
  ['small', 'doubts', () => [], 'zone-doubts'],
  ['small', 'doubts.0.settled', () => 'plain', 'doubt-answer'],
  ['small', 'doubts.0.zones', () => 50, 'doubt-zones'],
  ['small', 'doubts.0.bytes', () => 99_999, 'doubt-bytes'],
  ['small', 'doubtsAll', () => 99_999, 'doubts-bytes'],
  ['small', 'together', () => [{ names: ['tail', 'tail'], bytes: 1 }], 'together'],
  ['small', 'printed.zones', () => 1, 'printed-zones'],
  ['small', 'printed.bytes', () => 1, 'printed-bytes'],
  ['small', 'rare.units.0.instrument', () => 'other', 'rare-unit'],
  ['small', 'rare.units.0.machine', () => 'other', 'instrument-machine'],
  ['small', 'rare.units.0.copy', () => 'other', 'copy'],
  ['small', 'rare.units.0.zones', () => [77], 'rare-zone'],
  ['small', 'rare.units.0.articulations', () => [7], 'rare-articulation'],
  ['small', 'rare.units.0.samples', () => 50, 'rare-samples'],
  ['small', 'rare.units.0.notes', () => 0, 'rare-notes'],
  ['small', 'rare.units.0.cues', () => ({ '9m9': 1 }), 'rare-cue'],
  ['small', 'rare.fewerThan', () => 1, 'rare-notes'],
  ['small', 'rare.bytes', () => 99_999, 'rare-bytes'],
  ['small', 'headroomCurve.steps.0.cuesServed', () => 50, 'curve-served'],
  ['small', 'headroomCurve.steps.0.missed', () => ['9m9'], 'curve-missed'],
  ['small', 'headroomCurve.steps.0.zones', () => 1, 'curve-zones'],
  ['small', 'headroomCurve.steps.0.bytes', () => 1, 'curve-bytes'],
  ['template', 'instruments.0.copies.0.kept.0', () => undefined, 'copy-zones'],
  ['template', 'instruments.0.copies.0.kept', () => null, 'copy-zones'],
  ['template', 'instruments.0.copies.0.kept.0', () => 77, 'copy-zone'],
  ['template', 'instruments.0.copies.0.muted', () => [77], 'copy-zone-muted'],
  ['template', 'instruments.0.copies.0.name', () => 'Hn 2', 'copy'],
  ['template', 'instruments.0.shares', () => 'machine', 'copy-zone'],
  ['template', 'instruments.0.settle', () => ({}), 'answer'],
  ['small', 'allowances.headroom.bytes', () => 1, 'allowance-bytes'],
  ['template', 'allowances.pins', () => [], 'allowance-pins'],
  ['template', 'allowances.pins.0.zones', () => 50, 'allowance-zones'],
  ['template', 'settings.pins', () => [], 'zone-reasons'],
  ['template', 'settings.pins.0.instrument', () => 'other', 'pin'],
  ['template', 'settings.instrument', () => 'horns.csv', 'instrument-alone'],
  ['template', 'machines.1.fits', () => true, 'machine-fits'],
  ['template', 'machines', (all) => [...(all as Json[]), (all as Json[])[0]!], 'machine'],
];

test.each(rows)('%s: %s', (base, text, edit, what) => {
  const document = base === 'small' ? small : template;
  const path = pathOf(text);
  const found = refusalOf(changed(document, path, edit(valueAt(document, path))));
  expect(new Set(found?.map(({ code }) => code))).toEqual(new Set(['keep-file-disagrees']));
  expect(found?.map(({ args }) => (args as { what: Stated }).what)).toContain(what);
});

test('zones that stay in no copy, or in one that holds their samples', () => {
  const copies = valueAt(template, pathOf('instruments.0.copies')) as Record<string, Json>[];
  const zone = (copies[0]!['kept'] as number[])[0]!;
  const without = copies.map((copy) => {
    const kept = (copy['kept'] as number[]).filter((one) => one !== zone);
    return { ...copy, kept, zonesKept: kept.length };
  });
  const edited = changed(template, pathOf('instruments.0.copies'), without);
  expect(refusalOf(edited)?.map(({ args }) => args)).toEqual([
    expect.objectContaining({ what: 'zone-in-no-copy', says: zone, instrument: 'horns' }),
  ]);
  const muted = copies.map((copy) =>
    (copy['kept'] as number[]).includes(zone) ? { ...copy, muted: [zone] } : copy,
  );
  expect(
    refusalOf(changed(template, pathOf('instruments.0.copies'), muted))?.map(({ args }) => args),
  ).toEqual([expect.objectContaining({ what: 'zone-reasons', of: String(zone) })]);
});

const attempts = (document: Json, by: number) =>
  placesIn(document).flatMap(([path, value]) =>
    typeof value === 'number' ? [[kindOf(path), changed(document, path, value + by)] as const] : [],
  );

test('every number one more or one less', () => {
  const passed = new Set<string>();
  for (const document of [small, template]) {
    for (const by of [1, -1]) {
      for (const [kind, edited] of attempts(document, by)) {
        if (refusalOf(edited) === null) passed.add(kind);
      }
    }
  }
  expect([...passed].sort()).toEqual([...unnoticed].sort());
});
