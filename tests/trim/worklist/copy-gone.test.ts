import { expect, test } from 'vitest';
import { doneZones } from '../../../src/trim/worklist/done-zones.ts';
import { parseActionKey, writeActionKey } from '../../../src/trim/worklist/action-key.ts';
import type { Ledger } from '../../../src/trim/worklist/ledger/ledger.ts';
import { emptyLedger } from '../../../src/trim/worklist/ledger/ledger.ts';
import type { Slot, SlottedInstrument } from '../../../src/trim/worklist/slots.ts';
import { zoneFingerprint } from '../../../src/trim/worklist/zone-fingerprint.ts';
import { InputError } from '../../../src/terms/errors.ts';
import { articulation, built } from '../../instruments/outline/build.ts';
import { defaultPlayer } from '../../../src/template/player.ts';

/** Two copies that a plan names, and others that no cue plays. */
const instrument = { ...built(articulation('a', { keys: [[60, 72]] })), id: 'bsn' };
const slot = (copy: string | null, count: number): Slot => ({
  ...{ copy, count, isSpare: copy === null },
  wanted: new Uint8Array([1]),
});
const withSlots = (...slots: readonly Slot[]) => [
  {
    ...{ instrument, player: { ...defaultPlayer, shares: 'copy' as const }, slots },
  } as unknown as SlottedInstrument,
];
const done = (whose: string): Ledger => {
  const text = `unload bsn${whose}/a: 0 #${zoneFingerprint(instrument)}`;
  const key = parseActionKey(text)!;
  expect(writeActionKey(key)).toBe(text);
  const entry = { number: 1, key, state: 'done', seen: null, note: '', at: { line: 2, column: 1 } };
  return { ...emptyLedger, entries: [entry] } as unknown as Ledger;
};

test.each([
  ['a copy of another name', '@Bsn 1', [slot('Bsn I', 1)], 'Bsn 1'],
  ['fewer copies that no cue plays', '@-2', [slot('Bsn 1', 1), slot(null, 1)], null],
  ['none of them', '@-1', [slot('Bsn 1', 1)], null],
])('%s: told, and no proof rests on it', (_, whose, slots, copy) => {
  const ledger = done(whose);
  const { findings } = doneZones(withSlots(...slots), ledger, 'loaded.csv');
  expect(findings).toMatchObject([
    { code: 'worklist-copy-gone', args: { number: 1, instrument: 'bsn', copy } },
  ]);
  expect(() => doneZones(withSlots(...slots), ledger, 'loaded.csv', true)).toThrow(InputError);
});

test.each(['@Bsn 1', '@-2'])('what is there as it was is what was done (%s)', (whose) => {
  const slots = withSlots(slot('Bsn 1', 1), slot(null, 2));
  const { loaded, findings } = doneZones(slots, done(whose), 'loaded.csv', true);
  expect(findings).toEqual([]);
  const masks = slots[0]!.slots.map((one) => [...loaded.of(one)]);
  expect(masks).toEqual(whose === '@Bsn 1' ? [[0], [1]] : [[1], [0]]);
});
