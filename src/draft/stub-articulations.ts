import { fold } from '../notation/fold.ts';
import { keyName } from '../terms/key.ts';
import type { PartNotes } from '../playback/note-usage.ts';
import type { Range } from '../terms/range.ts';
import { articulationWords } from './capture-rule.ts';
import type { DraftTrack } from './collect-tracks.ts';
import type { TrackGroup } from './group-tracks.ts';
import { see } from './see.ts';
import type { KeyPresses } from './switch-presses.ts';
import { switchPartners } from './switch-tracks.ts';

/** An articulation of an outline, as far as the score shows that there is one. */
export interface StubArticulation {
  readonly name: string;
  /** How a key that looks like its switch is pressed; null: what selects it is not seen. */
  readonly presses: KeyPresses | null;
  /** Lowest and highest key played; null: none. */
  readonly keys: Range | null;
}

/** What is known beside the tracks. */
export interface SeenSwitches {
  readonly pressesOf: (part: PartNotes) => readonly KeyPresses[];
  /** Words of track names -> articulations, as the template has them; keys folded. */
  readonly names: ReadonlyMap<string, string>;
}

/** The name of the only articulation that is seen; a person gives it the real one. */
const unnamed = 'as played';

const earlier = (a: KeyPresses, b: KeyPresses): KeyPresses =>
  a.order < b.order || (a.order === b.order && a.bar <= b.bar) ? a : b;

/** By key, over all cues. */
const switchesOf = (
  { tracks }: TrackGroup,
  partners: ReadonlyMap<DraftTrack, DraftTrack>,
  pressesOf: SeenSwitches['pressesOf'],
): readonly KeyPresses[] => {
  const found = new Map<number, KeyPresses>();
  for (const track of tracks) {
    for (const { part } of track.parts) {
      const likely = new Set(part.likelySwitches);
      for (const presses of pressesOf(part)) {
        const { key, count } = presses;
        if (!partners.has(track) && !likely.has(key)) continue;
        const own = found.get(key);
        found.set(
          key,
          own === undefined ? presses : { ...earlier(own, presses), count: own.count + count },
        );
      }
    }
  }
  return [...found.values()].sort((a, b) => a.key - b.key);
};

const keysOf = (tracks: readonly DraftTrack[]): Range | null =>
  see(tracks.flatMap(({ parts }) => parts)).keys;

/**
 * The articulations of a drafted instrument: those that the names of its tracks say, as its routes
 * call them, then one for each key that looks like a switch; one for everything where there is
 * neither. Names are unique, however they are spelled.
 *
 * @param middleC the octave of key 60 in the outline
 */
export const stubArticulations = (
  group: TrackGroup,
  { pressesOf, names }: SeenSwitches,
  middleC: number,
): readonly StubArticulation[] => {
  const partners = switchPartners(group.tracks);
  const notes = group.tracks.filter((track) => !partners.has(track));
  const named = new Map<string, { readonly name: string; readonly tracks: DraftTrack[] }>();
  const plain: DraftTrack[] = [];
  for (const track of notes) {
    const said = track.said.articulation?.name;
    if (said === undefined) {
      plain.push(track);
      continue;
    }
    const name = names.get(articulationWords(track) ?? '') ?? said;
    const own = named.get(fold(name));
    if (own === undefined) named.set(fold(name), { name, tracks: [track] });
    else own.tracks.push(track);
  }
  const bySwitch = switchesOf(group, partners, pressesOf).map((presses) => ({
    name: `articulation at ${keyName(presses.key, middleC)}`,
    presses,
    keys: keysOf(notes),
  }));
  const needsOther = bySwitch.length === 0 && (plain.length > 0 || named.size === 0);
  return [
    ...[...named.values()].map(({ name, tracks }) => ({
      name,
      presses: null,
      keys: keysOf(tracks),
    })),
    ...bySwitch.filter(({ name }) => !named.has(fold(name))),
    ...(needsOther && !named.has(unnamed)
      ? [{ name: unnamed, presses: null, keys: keysOf(plain) }]
      : []),
  ];
};
