import { describe, expect, test } from 'vitest';
import type { Why } from '../../src/keep/why/why.ts';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { whyTable } from '../../src/report/why-table.ts';
import { hostileNames } from './fixtures/names.ts';
import { why, wholeWhy } from './fixtures/why.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };

const hostileZone = <Zone extends Why['kept'][number] | Why['dropped'][number]>(
  zone: Zone,
  i: number,
): Zone => ({
  ...zone,
  key: hostileNames[i % hostileNames.length]!,
  samples: hostileNames,
  articulationNames: [hostileNames[(i + 3) % hostileNames.length]!],
});

const hostileOf = (from: Why): Why => ({
  ...from,
  instrument: hostileNames[0],
  machine: hostileNames[2],
  kept: from.kept.map((zone, i) => ({
    ...hostileZone(zone, i),
    cues: Object.fromEntries(hostileNames.map((cue, n) => [cue, n + 1])),
    copies: [...hostileNames],
    witnesses: zone.witnesses.map((place) => ({
      ...place,
      cue: hostileNames[1],
      trackName: hostileNames[5],
    })),
  })),
  dropped: from.dropped.map((zone, i) => ({
    ...hostileZone(zone, i),
    nearest:
      zone.nearest?.map((near) => ({
        ...near,
        place: { ...near.place, cue: hostileNames[5], trackName: hostileNames[0] },
      })) ?? null,
  })),
});

const goldens = [
  ['why-wide', why, wide],
  ['why-80', why, { ...wide, width: 80 }],
  ['why-60-ascii-c3', { ...why, middleC: 3 }, { ...wide, width: 60, ascii: true }],
  ['why-hostile-100', hostileOf(why), { ...wide, width: 100 }],
  ['why-whole-wide', wholeWhy, wide],
  ['why-whole-60-ascii', wholeWhy, { ...wide, width: 60, ascii: true }],
] as const;

test.each(goldens)('%s', async (name, which, look) => {
  await expect(whyTable(which, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe.each([
  ['some zones', why],
  ['hostile zones', hostileOf(why)],
  ['the whole', wholeWhy],
  ['a hostile whole', hostileOf(wholeWhy)],
] as const)('%s', (_, which) => {
  test.each([60, 80, 100, 160])('keep inside %d columns', (width) => {
    for (const details of [false, true]) {
      for (const line of whyTable(which, { ...wide, width, details }).split('\n')) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('let nothing act on the terminal but the end of a line', () => {
    const text = whyTable(which, wide).replaceAll('\n', '');
    expect(text).not.toMatch(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/u);
  });

  test('colours change nothing but colours', () => {
    const marked = new Proxy(plainColors, {
      get: () => (text: string) => `\u001b[1m${text}\u001b[22m`,
    });
    const painted = whyTable(which, { ...wide, width: 80, colors: marked });
    expect(painted).toContain('\u001b[1m');

    expect(painted.replace(/\u001b\[\d+m/g, '')).toBe(whyTable(which, { ...wide, width: 80 }));
  });
});

test('takes and microphones of which the same is to be said are one paragraph', () => {
  const [zone] = why.kept;
  const many = Array.from({ length: 40 }, (_, i) => ({ ...zone!, zone: 100 + i, key: String(i) }));
  const text = whyTable({ ...why, kept: many, dropped: [] }, wide);
  expect(text.match(/^Zones? /gm)).toHaveLength(1);
  expect(text).toContain('Zones 100-139 (40): kept.');
});

test('without details a person reads ten paragraphs, with them all', () => {
  const [zone] = why.kept;
  const many = Array.from({ length: 14 }, (_, i) => ({ ...zone!, zone: i, notes: i }));
  const count = (look: Look): number =>
    whyTable({ ...why, kept: many, dropped: [] }, look).match(/^Zone \d/gm)!.length;
  expect(count(wide)).toBe(10);
  expect(count({ ...wide, details: true })).toBe(14);
  expect(whyTable({ ...why, kept: many, dropped: [] }, wide)).toContain('4 more groups');
});

test.each([
  [[91, 127], 80, 11, 'velocity 91 needed, 80 is the hardest'],
  [[1, 40], 52, 12, 'velocity 40 needed, 52 is the softest'],
  [[41, 60], 70, 10, 'velocity 60 needed, 70 is the nearest'],
] as const)('velocities %j, played %d', (velocities, velocity, distance, says) => {
  const [zone] = why.dropped;
  const place = { ...zone!.nearest![0]!.place, velocity };
  const near = { by: 'velocity', distance, doubts: [], notes: 1, place } as const;
  const text = whyTable({ ...why, dropped: [{ ...zone!, velocities, nearest: [near] }] }, wide);
  expect(text).toContain(says);
});
