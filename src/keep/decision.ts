import type { Instrument } from '../instruments/instrument.ts';
import type { Calibration } from '../memory/calibration.ts';
import type { LoadedInstrument } from '../memory/loaded.ts';
import type { ZoneMask } from '../memory/zone-mask.ts';
import type { Player } from '../template/player.ts';
import type { Pin } from '../template/template.ts';
import { doubtNames, doubtSet, type DoubtSet } from '../terms/doubt.ts';
import type { Settlements } from '../terms/settlement.ts';
import { keepSet, loadedMask, why, type KeepSet } from './keep-set.ts';
import type { CopyTally, Tally } from './tally.ts';

/** An instrument with all that decides what stays of it. */
export interface Subject {
  readonly instrument: Instrument;
  readonly machine: string;
  readonly player: Player;
  readonly calibration: Calibration;
  readonly settle: Settlements;
  readonly pins: readonly Pin[];
  readonly tally: Tally;
  /** Copies that are loaded before anything is unloaded, those of printed tracks included; at least 1. */
  readonly loaded: number;
}

/** What stays of an instrument: the same in all copies, or of each copy its own. */
export interface Decision {
  readonly whole: KeepSet;
  /** In the order of the tally's copies; null where all copies load the same. */
  readonly copies: readonly KeepSet[] | null;
}

/** The doubts answered as the plain reading: what is reached only through one of them goes. */
export const settledAsPlain = (settle: Settlements): DoubtSet =>
  doubtSet(...doubtNames.filter((name) => settle[name] === 'plain'));

/** @param excluded doubts taken as the plain reading */
export const decide = (subject: Subject, excluded: DoubtSet): Decision => {
  const { instrument, player, pins, tally } = subject;
  const rules = { excluded, grain: player.unloads, pins };
  const together = keepSet(instrument, tally.reach, rules);
  if (player.shares === 'machine') return { whole: together, copies: null };
  const copies = tally.copies.map((copy, i) =>
    keepSet(
      instrument,
      copy.reach!,
      isLoaded(copy) || (i === 0 && !tally.copies.some(isLoaded)) ? rules : { ...rules, pins: [] },
    ),
  );
  // An instrument that no cue plays may stay for a pin, or for what could not be read: in one copy.
  if (copies.length === 0) return { whole: together, copies: [together] };
  return { whole: joined(copies), copies };
};

/** What any copy keeps, for the strongest of the reasons. */
const joined = (copies: readonly KeepSet[]): KeepSet => {
  const reasons = copies[0]!.why.slice();
  const starts = copies[0]!.starts.slice();
  for (const copy of copies.slice(1)) {
    copy.why.forEach((reason, zone) => {
      if (reason === why.dropped) return;
      if (reasons[zone] === why.dropped || reason < reasons[zone]!) reasons[zone] = reason;
    });
    copy.starts.forEach((kept, i) => {
      if (kept === 1) starts[i] = 1;
    });
  }
  return { why: reasons, starts };
};

/** An instrument as it lies in memory under a decision. @param mask which zones of a keep set count */
export const loadedUnder = (
  { instrument, player, calibration, tally }: Subject,
  { whole, copies }: Decision,
  mask: (kept: KeepSet) => ZoneMask = loadedMask,
): LoadedInstrument => ({
  instrument,
  player,
  calibration,
  copies:
    copies === null
      ? [{ zones: mask(whole), count: Math.max(1, playing(tally)) }]
      : copies.map((copy) => ({ zones: mask(copy), count: 1 })),
});

/** It gets notes, or may have got some that could not be read. */
export const isLoaded = ({ notes, damaged }: CopyTally): boolean => notes > 0 || damaged;

/** Copies that get notes: the others need not be loaded. */
const playing = ({ copies }: Tally): number => copies.filter(isLoaded).length;

/** An instrument before anything is unloaded: all of it, in every copy. */
export const fullyLoaded = ({
  instrument,
  player,
  calibration,
  loaded,
}: Subject): LoadedInstrument => ({
  instrument,
  player,
  calibration,
  copies: [{ zones: new Uint8Array(instrument.zones.length).fill(1), count: loaded }],
});
