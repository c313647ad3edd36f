/** What the demo's template is there to teach, as the plan says it. */
import { beforeAll, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Plan, PlanInstrument } from '../../src/keep/plan.ts';

const files = new MemoryFiles(
  Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes])),
);
let made: Plan;
beforeAll(async () => {
  made = await plan({ template: 'keepset.yaml', files });
}, 120_000);

const named = (id: string): PlanInstrument => made.instruments.find((one) => one.id === id)!;
const gib = 2 ** 30;

test('machine a holds its orchestra only after unloading; b holds all of it anyway', () => {
  const [a, b] = made.machines;
  expect(a!.bytes.full).toBeGreaterThan(a!.budget!);
  expect([a!.fits, b!.fits]).toEqual([true, true]);
  expect(b!.bytes.full).toBeLessThan(b!.budget!);
  // Nor would all of it fit on either of the two.
  expect(made.total.bytes.full).toBeGreaterThan(12 * gib);
  expect(made.total.bytes.kept).toBeLessThan(8 * gib);
});

test('nobody plays the trumpets, and the pads are audio already', () => {
  const unplayed = made.instruments.filter(({ zonesKept }) => zonesKept === 0);
  expect(unplayed.map(({ id }) => id)).toEqual(['trumpets', 'pads']);
  expect(made.printed.parts).toBe(1);
  expect(made.printed.bytes).toBeGreaterThan(2 ** 20);
});

test('the harp stays whole because of its grain', () => {
  const { bytes, zones, zonesKept } = named('harp');
  expect(zonesKept).toBe(zones);
  expect(bytes.reached).toBeLessThan(bytes.full / 4);
});

test('the flutes, which never send a switch, are the doubt most worth settling', () => {
  const [dearest] = made.doubts;
  expect(dearest).toMatchObject({ name: 'no-switch', settled: null });
  expect(dearest!.bytes).toBeGreaterThan(0.4 * gib);
  const doubtful = made.instruments.filter(({ kept }) =>
    kept.some(({ doubts }) => doubts.some((set) => set.includes('no-switch'))),
  );
  // The low chamber strings never send one either, for next to nothing.
  expect(doubtful.map(({ id }) => id)).toEqual(['flutes', 'chamber']);
  expect(named('chamber').bytes.full).toBeLessThan(dearest!.bytes / 100);
});

test('figures of every basis: read off, fitted, computed', () => {
  const basisOf = (id: string): string => named(id).bytes.basis;
  expect(['low-strings', 'horns', 'fiddle'].map(basisOf)).toEqual(['read', 'fitted', 'computed']);
});

test('three tracks share the sections; two copies of the flutes keep zones of their own', () => {
  expect(named('section-strings').copies).toHaveLength(3);
  expect(named('flutes').copies.map(({ zonesKept }) => zonesKept)).toHaveLength(2);
});

test('only the pin keeps the loudest stroke of the timpani, and only where it says', () => {
  const pinned = named('timpani').kept.filter(({ reasons }) => reasons.includes('pinned'));
  expect(pinned.length).toBeGreaterThan(0);
  for (const { key } of pinned) expect(key).toContain('v109-127');
});

test('the outlines: what is chosen and played stays, and transitions only where notes are joined', () => {
  const played = (id: string): readonly string[] =>
    named(id).articulations.flatMap(({ name, notes }) => (notes > 0 ? [name] : []));
  expect(played('bassoons')).toEqual(['sustain', 'staccato']);
  expect(named('bassoons').kept.map(({ key }) => key!.split(' ')[0])).toEqual(played('bassoons'));
  expect(played('solo-cello')).toEqual(['sustain', 'legato', 'spiccato']);
  const kept = named('solo-cello').kept.map(({ key }) => key!);
  expect(kept.some((key) => / legato [+-]\d+$/.test(key))).toBe(true);
  expect(kept.filter((key) => /^(pizzicato|tremolo) /.test(key))).toEqual([]);
  // Which recorded key plays one between two is not said of the spiccato, and nothing of the takes of
  // the long notes.
  const doubted = named('solo-cello').kept.filter(({ doubts }) =>
    doubts.some((set) => set.includes('stretch')),
  );
  expect(doubted.length).toBeGreaterThan(0);
  expect(doubted.some(({ key }) => key!.startsWith('spiccato '))).toBe(true);
  for (const { key } of doubted) expect(key).toMatch(/^(spiccato|sustain|legato) /);
});

test('no warning but that the trumpets are not played; a note on the printed pads', () => {
  const warnings = made.findings.filter(({ severity }) => severity !== 'note');
  expect(warnings.map(({ code, args }) => [code, args])).toEqual([
    ['instrument-unused', expect.objectContaining({ instrument: 'trumpets' })],
  ]);
  const printed = made.findings.find(({ code }) => code === 'instrument-printed');
  expect(printed?.args).toMatchObject({ instrument: 'pads' });
});
