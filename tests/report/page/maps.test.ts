import { expect, test } from 'vitest';
import type { Overview } from '../../../src/overview/overview.ts';
import type { OverviewRow } from '../../../src/overview/overview-map.ts';
import { mapsSection, rowName, scaleOf } from '../../../src/report/page/maps.ts';
import type { Range } from '../../../src/terms/range.ts';
import { overviewOfSize } from './overview-of-size.ts';

const row = (velocity: Range, controllers: OverviewRow['controllers'] = []): OverviewRow => ({
  ...{ velocity, controllers, event: 'note', zones: 1, zonesKept: 1, cells: [] },
});

test.each<[OverviewRow, string]>([
  [row([0, 127]), 'every dynamic'],
  [row([45, 84]), 'mp to mf, velocity 45-84'],
  // A velocity of 0 is no note: the composer's list begins at 1 as well.
  [row([0, 30]), 'ppp, velocity 1-30'],
  [row([40, 50]), 'part of p and mp, velocity 40-50'],
  [row([0, 127], [{ number: 1, range: [0, 39] }]), 'CC1 0-39'],
  [row([0, 127], [{ number: 1, range: [0, 127] }]), 'every dynamic'],
])('a layer is called by what chooses it: %#', (one, name) => {
  expect(rowName(one)).toBe(name);
});

test('all strips have one scale, from the lowest key of any instrument to the highest', () => {
  const of = (...keys: readonly (Range | null)[]) => scaleOf(keys.map((one) => ({ keys: one })));
  expect(of([41, 60], null, [55, 98])).toEqual({ lo: 40, hi: 98 });
  expect(of([24, 60], [12, 30])).toEqual({ lo: 12, hi: 60 });
  expect(of([0, 127])).toEqual({ lo: 0, hi: 127 });
  expect(of(null)).toEqual({ lo: 60, hi: 60 });
});

const small = { instruments: 1, articulations: 2, rows: 3, cells: 4, cues: 1 };

/** The same where the first articulation is gone. */
const withGone = (overview: Overview): Overview => ({
  ...overview,
  instruments: overview.instruments.map((one) => ({
    ...one,
    articulations: one.articulations.map((own, i) =>
      i === 0 ? { ...own, notes: 0, zonesKept: 0, bytes: { full: 2 ** 20, kept: 0 } } : own,
    ),
  })),
});

const textOf = (html: string): string => html.replace(/<[^>]*>/g, '').replaceAll('\u00a0', ' ');

test('an articulation that is gone takes a line, and its layers no strips', () => {
  const whole = mapsSection(overviewOfSize(small)).text;
  const gone = mapsSection(withGone(overviewOfSize(small))).text;
  const strips = (html: string): number => html.split(/<td><svg class=s>/).length - 1;
  expect([strips(whole), strips(gone)]).toEqual([6, 3]);
  expect(textOf(gone)).toContain('articulation 0: gone, 3 layers, 900 zones, 1.00 MiB');
});

test('how many layers were there is not said where they were put together', () => {
  const gone = mapsSection({ ...withGone(overviewOfSize(small)), reduced: ['layers'] }).text;
  expect(textOf(gone)).toContain('articulation 0: gone, 900 zones, 1.00 MiB');
});
