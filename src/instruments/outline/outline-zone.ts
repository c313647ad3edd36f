import { keyName } from '../../terms/key.ts';
import type { Range } from '../../terms/range.ts';
import { rangeText } from '../zone-name.ts';
import { keyReaches, placesOf, type KeyReach } from './key-reach.ts';
import { layerCount, layerReaches, type LayerReach } from './layer-reach.ts';
import type { LayerAxis, OutlineArticulation, RoundRobins } from './outline.ts';

/** A zone that an outline stands for. */
export interface OutlineZone {
  /** Index into the articulations. */
  readonly articulation: number;
  readonly role: Role;
  /** What it answers. */
  readonly keys: KeyReach;
  readonly layer: LayerReach;
  /** A transition's, in semitones; null: of all intervals, or no transition. */
  readonly interval: number | null;
  readonly microphone: string | null;
  /** What it is called, if nothing else is. */
  readonly name: string;
}

/** What a zone is in its articulation. */
export type Role = 'note' | 'release' | 'legato';

/** An articulation with what is known of it by looking at all. */
export interface PlacedArticulation {
  readonly number: number;
  readonly own: OutlineArticulation;
  /** The keys it can be played on. */
  readonly keys: readonly Range[];
}

/** What some zones of an articulation have in common. */
export interface Part {
  readonly role: Role;
  readonly layers: readonly LayerAxis[];
  readonly roundRobins: RoundRobins;
  /** Of transitions; `[null]` where there are none, or one for all. */
  readonly intervals: readonly (number | null)[];
}

/** How many zones an articulation stands for; what is counted is not made. */
export const zoneCount = ({ own, keys }: PlacedArticulation): number =>
  partsOf(own).reduce(
    (sum, { layers, roundRobins, intervals }) =>
      sum +
      placesOf(own, keys) *
        intervals.length *
        layerCount(layers) *
        takesOf(roundRobins) *
        own.microphones.length,
    0,
  );

/**
 * The zones of an articulation: those of notes, then releases, then transitions; in each by key,
 * interval, layer, take and microphone, the last fastest.
 */
export const expandArticulation = ({
  number,
  own,
  keys: playable,
}: PlacedArticulation): readonly OutlineZone[] =>
  partsOf(own).flatMap((part) => {
    const layers = layerReaches(part.layers, own.when.velocity);
    const takes = Array.from({ length: takesOf(part.roundRobins) }, (_, i) => i + 1);
    return keyReaches(own, playable, part.roundRobins.borrow).flatMap((keys) =>
      part.intervals.flatMap((interval) =>
        layers.flatMap((layer) =>
          takes.flatMap((take) =>
            own.microphones.map((microphone): OutlineZone => {
              const words = [
                own.name,
                placeName(keys.place),
                ...layer.names,
                ...(part.roundRobins.count > 1 ? [`rr${String(take)}`] : []),
                ...(microphone === null ? [] : [microphone]),
                ...roleWords(part.role, interval),
              ];
              return {
                articulation: number,
                role: part.role,
                keys,
                layer,
                interval,
                microphone,
                name: words.join(' '),
              };
            }),
          ),
        ),
      ),
    );
  });

/** Notes, then releases, then transitions. */
export const partsOf = (own: OutlineArticulation): readonly Part[] => {
  const { releases, legato } = own;
  const note: Part = { role: 'note', ...own, intervals: [null] };
  return [
    note,
    ...(releases === null ? [] : [{ role: 'release', ...releases, intervals: [null] } as const]),
    ...(legato === null
      ? []
      : [{ role: 'legato', ...legato, intervals: intervalsOf(legato.intervals) } as const]),
  ];
};

/** Both directions, downwards first. */
const intervalsOf = (most: number | null): readonly (number | null)[] =>
  most === null
    ? [null]
    : Array.from({ length: 2 * most }, (_, i) => (i < most ? i - most : i - most + 1));

/** Own recordings: a borrowed take is a recording of another key. */
export const takesOf = ({ count, borrow }: RoundRobins): number => count - (borrow ?? 0);

const placeName = (place: KeyReach['place']): string =>
  typeof place === 'number' ? keyName(place) : rangeText(place, keyName);

const roleWords = (role: Role, interval: number | null): readonly string[] => {
  if (role === 'note') return [];
  if (interval === null) return [role];
  return [role, interval > 0 ? `+${String(interval)}` : String(interval)];
};
