import { plain } from '../oracle/doubts.ts';
import { readBank } from '../oracle/soundfont-bank.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { reachOf } from './cue-reach.ts';
import { dropZone } from './drop-zone.ts';

/**
 * A bank from which one zone too many is gone: one that these events play by the naive player's plain
 * reading. It must be heard that it is missing.
 *
 * Only zones with a sample of their own among others are taken: a synthesiser may play another zone of
 * the instrument instead, where none takes a note, and it must not be the same sound.
 *
 * @param choose takes one of the zones, by their bag numbers.
 */
export const overTrimmed = (
  bank: Uint8Array,
  events: readonly OracleEvent[],
  choose: (zones: readonly number[]) => number,
): Uint8Array => {
  const oracle = readBank(bank);
  const reached = reachOf(oracle, events);
  const zones = oracle.instruments.flatMap(({ locals }) =>
    locals.flatMap(({ index, target }) => {
      const alone = locals.filter((one) => one.target === target).length === 1;
      const isPlayed = reached.get(index)?.includes(plain) === true;
      return alone && locals.length > 1 && isPlayed ? [index] : [];
    }),
  );
  return dropZone(bank, choose(zones));
};
