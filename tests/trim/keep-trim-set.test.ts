/** What stays when files are rewritten (the design, section 9, `trim`): the player's grain does not bind it. */
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import type { KeptZone, PlanInstrument, Reason } from '../../src/keep/plan.ts';
import { patchValue } from '../../src/instruments/program.ts';
import { trimSetOf } from '../../src/trim/keep-trim-set.ts';

const kept = (zone: number, reason: Reason): KeptZone =>
  ({ zone, reasons: [reason], witnesses: [] }) as unknown as KeptZone;

/** Zones with ids from 10, a sample each; `pairs` are stereo halves by id, all in one group. */
const instrument = (
  count: number,
  pairs: readonly (readonly [number, number])[] = [],
  playedAs: Instrument['playedAs'] = 'single',
): Instrument => {
  const partner = new Map(pairs.flatMap(([a, b]) => [[a, b] as const, [b, a] as const]));
  return {
    playedAs,
    zones: Array.from({ length: count }, (_, i) => ({ id: 10 + i, samples: [i], group: 0 })),
    samples: Array.from({ length: count }, (_, i) => {
      const other = partner.get(10 + i);
      return { partner: other === undefined ? null : other - 10 };
    }),
  } as unknown as Instrument;
};

const planned = (zones: readonly KeptZone[], more: Partial<PlanInstrument> = {}) =>
  ({ kept: zones, presetZones: [], copies: [], ...more }) as unknown as PlanInstrument;

describe('zones', () => {
  test.each<readonly [Reason, string]>([
    ['played', 'loaded'],
    ['order', 'loaded'],
    ['damage', 'loaded'],
    ['pinned', 'loaded'],
    ['headroom', 'loaded'],
    ['mutes', 'silent'],
    ['grain', 'gone'],
  ])('%s: %s', (reason, fate) => {
    const { loaded, silent } = trimSetOf(planned([kept(10, reason)]), instrument(2));
    expect([[...loaded], [...silent]]).toEqual([
      fate === 'loaded' ? [10] : [],
      fate === 'silent' ? [10] : [],
    ]);
  });

  test('a stereo half stays with what stays, and goes with what its player alone keeps', () => {
    const all = instrument(6, [
      [10, 11],
      [12, 13],
    ]);
    const zones = [
      kept(10, 'played'),
      kept(11, 'linked'),
      kept(12, 'grain'),
      kept(13, 'linked'),
      kept(14, 'grain'),
    ];
    expect([...trimSetOf(planned(zones), all).loaded].sort()).toEqual([10, 11]);
  });
});

test('programs that cues choose, whatever their bank, and the one at power-on', () => {
  const copies = [
    { chosen: [{ values: [patchValue(0, 48), patchValue(128, 25)] }] },
    { chosen: [{ values: [patchValue(16_383, 127)] }] },
  ] as unknown as PlanInstrument['copies'];
  const of = (playedAs: Instrument['playedAs']) =>
    [...trimSetOf(planned([], { copies }), instrument(1, [], playedAs)).programs].sort(
      (a, b) => a - b,
    );
  expect(of('bank')).toEqual([0, 25, 48, 127]);
  // One preset by itself follows no programs; of SFZ they are conditions, not presets.
  expect(of('single')).toEqual([]);
});
