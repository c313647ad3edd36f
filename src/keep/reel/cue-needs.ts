import type { Need } from '../../memory/reel/need.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import type { Headroom, Pin } from '../../template/template.ts';
import type { ZoneMask } from '../../memory/zone-mask.ts';
import { isLoaded, settledAsPlain, type Subject } from '../decision.ts';
import { keepSet, loadedMask } from '../keep-set.ts';
import { addReach, noReach, taintReach, type Reach } from '../open-reach.ts';
import { ReelReader, usagesOf } from '../reach.ts';

/** A copy that nobody plays and that stays for a pin, or for what could not be read. */
const unplayed = '';

/**
 * What each cue needs of an instrument when it is loaded by itself: what it reaches, by what the copies
 * choose in the whole reel, closed upward to what the player can unload. Pins are in all of them.
 *
 * @param subject of the whole reel
 * @param cues in any order; the files of each, without printed tracks
 * @param files of the whole reel, the same
 */
export const cueNeeds = (
  subject: Subject,
  cues: readonly (readonly FileUsage[])[],
  files: readonly FileUsage[],
  headroom: Headroom,
): readonly Need[] => {
  const reader = new ReelReader(subject.instrument, usagesOf(subject.instrument, files), headroom);
  const needs = new NeedsOf(subject);
  return cues.map((own) => {
    const usages = usagesOf(subject.instrument, own);
    const isTainted = own.some(({ tainted }) => tainted.includes(subject.instrument.id));
    if (usages.length === 0 && !isTainted) return needs.idle;
    const loaded = new Set<string>();
    for (const { copy, notes, damaged } of usages) if (notes > 0 || damaged) loaded.add(copy);
    const whole = noReach(subject.instrument);
    const byCopy = new Map<string, Reach>();
    if (subject.player.shares === 'copy') {
      // A file that could not be read may have driven any copy that the reel knows.
      const names = isTainted
        ? subject.tally.copies.map(({ name }) => name)
        : usages.map(({ copy }) => copy);
      for (const name of names) byCopy.set(name, noReach(subject.instrument));
    }
    for (const reached of reader.classes(own)) {
      addReach(whole, reached);
      const ofCopy = byCopy.get(reached.copy.copy);
      if (ofCopy !== undefined) addReach(ofCopy, reached);
    }
    if (isTainted) {
      for (const reach of [whole, ...byCopy.values()]) taintReach(reach);
      for (const name of needs.playing) loaded.add(name);
    }
    return needs.of(whole, byCopy, loaded);
  });
};

/** Makes needs of what is reached, by the rules of one instrument. */
class NeedsOf {
  /** Where no copy plays. */
  readonly idle: Need;
  /** Names of the copies that get notes anywhere in the reel, or may have got some. */
  readonly playing: readonly string[];
  readonly #subject: Subject;
  /** Zones that pins keep in a copy that reaches nothing. */
  readonly #pinned: ZoneMask;
  /** Copies that pins are for: those that get notes anywhere in the reel, or else the first. */
  readonly #withPins: ReadonlySet<string>;

  constructor(subject: Subject) {
    this.#subject = subject;
    const { instrument, tally, pins } = subject;
    this.playing = tally.copies.filter(isLoaded).map(({ name }) => name);
    const first = tally.copies[0]?.name ?? unplayed;
    this.#withPins = new Set(this.playing.length > 0 ? this.playing : [first]);
    this.#pinned = this.#zones(noReach(instrument), pins);
    this.idle = this.of(noReach(instrument), new Map(), new Set());
  }

  of(whole: Reach, byCopy: ReadonlyMap<string, Reach>, loaded: ReadonlySet<string>): Need {
    const { player, pins, tally } = this.#subject;
    if (player.shares === 'machine') {
      return { kind: 'shared', zones: this.#zones(whole, pins), copies: loaded };
    }
    const copies = new Map<string, ZoneMask>();
    const add = (name: string, zones: ZoneMask): void => {
      if (zones.includes(1)) copies.set(name, zones);
    };
    for (const [name, reach] of byCopy) {
      add(name, this.#zones(reach, this.#withPins.has(name) ? pins : []));
    }
    for (const name of this.#withPins) if (!byCopy.has(name)) add(name, this.#pinned);
    // What no copy of the reel drives may still be needed: all of it, where something was not read.
    if (tally.copies.length === 0) add(unplayed, this.#zones(whole, pins));
    return { kind: 'own', copies };
  }

  #zones(reach: Reach, pins: readonly Pin[]): ZoneMask {
    const { instrument, player, settle } = this.#subject;
    const excluded = settledAsPlain(settle);
    return loadedMask(keepSet(instrument, reach, { excluded, grain: player.unloads, pins }));
  }
}
