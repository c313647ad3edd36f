import { expect, test } from 'vitest';
import type { Instrument, Sample, Zone } from '../../../src/instruments/instrument.ts';
import { fnv1a, zoneFingerprint } from '../../../src/trim/worklist/zone-fingerprint.ts';

/** FNV-1a with 32 bits: values of its published test suite, from memory. */
test.each([
  ['', '811c9dc5'],
  ['a', 'e40c292c'],
  ['foobar', 'bf9cf968'],
])('of %j', (text, hash) => {
  expect(fnv1a([text])).toBe(hash);
  expect(fnv1a([...text])).toBe(hash);
});

const sample = (name: string, frames = 1): Sample => ({
  ...{ name, frames, channels: 1, width: 2, present: true, rate: 44_100, partner: null },
});

const zone = (id: number, key: string | null, samples: readonly number[]): Zone => ({
  ...{ id, key, samples, group: 0, microphone: null },
});

const of = (zones: readonly Zone[], samples: readonly Sample[]): string =>
  zoneFingerprint({ zones, samples } as unknown as Instrument);

test('tells which zone is which, and nothing of sizes', () => {
  const samples = [sample('one'), sample('two')];
  const zones = [zone(0, 'low', [0]), zone(1, 'high', [1])];
  const first = of(zones, samples);
  expect(first).toMatch(/^[\da-f]{8}$/u);
  expect(of(zones, [sample('one', 9), sample('two', 9)])).toBe(first);
  const others = [
    of([zone(0, 'high', [0]), zone(1, 'low', [1])], samples),
    of([zone(0, 'low', [1]), zone(1, 'high', [0])], samples),
    of([zone(0, 'low', [0, 1]), zone(1, 'high', [1])], samples),
    of([zone(0, 'low', [0]), zone(2, 'high', [1])], samples),
    of([...zones, zone(2, 'top', [1])], samples),
    of(zones, [sample('one'), sample('three')]),
    of([zone(0, null, [0]), zone(1, null, [1])], samples),
  ];
  expect(new Set([first, ...others]).size).toBe(others.length + 1);
});
