import { minimal, type DoubtSet } from '../../src/terms/doubt.ts';
import { play, readBank } from '../oracle/soundfont-player.ts';
import { writeBank, type BankPlan } from '../oracle/soundfont-bytes.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import type { Engine } from './engine-under-test.ts';
import { scoreOf } from './oracle-score.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { routedWhole } from './whole-cue.ts';

/** What a bank and a cue come to, in a form in which engine and oracle must be the same. */
export interface Reached {
  /** `ibag: doubt sets`. */
  readonly zones: readonly string[];
  /** `pbag,ibag: doubt sets`. */
  readonly pairs: readonly string[];
  /** `channel,key,velocity: voices` of the plain reading. */
  readonly plainStarts: readonly string[];
}

const listed = <Key>(map: ReadonlyMap<Key, readonly number[] | number>): readonly string[] =>
  [...map].map(([key, value]) => `${String(key)}: ${[value].flat().join(' ')}`).sort();

export const oracleReached = (bank: BankPlan, events: readonly OracleEvent[]): Reached => {
  const { zones, pairs, plainStarts } = play(readBank(writeBank(bank)), events);
  const byBags = new Map<string, readonly number[]>();
  for (const [key, sets] of pairs) {
    const bags = key.slice(key.indexOf(',') + 1);
    byBags.set(bags, minimal([...(byBags.get(bags) ?? []), ...sets]));
  }
  return { zones: listed(zones), pairs: listed(byBags), plainStarts: listed(plainStarts) };
};

export const engineReached = async (
  engine: Engine,
  bank: BankPlan,
  events: readonly OracleEvent[],
): Promise<Reached> => {
  const files = new engine.MemoryFiles({ 'bank.sf2': writeBank(bank) });
  const instrument = await engine.readSoundFont(files, 'bank.sf2', null, () => 'digest');
  const score = scoreOf(events);
  const cue = { cue: '1m1', path: '1m1.mid', sha256: '', version: null, file: 0 };
  const parts = engine.partsOf(score);
  const routed = routedWhole(instrument, score, parts);
  const instruments = new Map([[instrument.id, instrument]]);
  const usage = engine.playCue(cue, score, parts, routed, instruments, asExported);
  const zones = new Map<number, readonly DoubtSet[]>();
  const pairs = new Map<string, readonly DoubtSet[]>();
  const plainStarts = new Map<string, number>();
  for (const { class: one, starts } of engine.reachedClasses(instrument, [usage])) {
    for (const { index, start, doubts } of starts) {
      const zone = instrument.zones[start.zone]!.id;
      const pair = `${String(instrument.presetZones[index])},${String(zone)}`;
      zones.set(zone, minimal([...(zones.get(zone) ?? []), ...doubts]));
      pairs.set(pair, minimal([...(pairs.get(pair) ?? []), ...doubts]));
      if (doubts[0] !== 0) continue;
      const name = `${String(one.channel)},${String(one.key)},${String(one.velocity)}`;
      plainStarts.set(name, (plainStarts.get(name) ?? 0) + one.count);
    }
  }
  return { zones: listed(zones), pairs: listed(pairs), plainStarts: listed(plainStarts) };
};
