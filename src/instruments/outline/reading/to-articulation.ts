import type { Place } from '../../../terms/finding.ts';
import type {
  LayerAxis,
  Legato,
  Measured,
  OutlineArticulation,
  Releases,
  RoundRobins,
  Sound,
  When,
} from '../outline.ts';
import type { PlacedChoice } from './choices.ts';
import type { Filled } from './like.ts';
import type { OwnFields } from './own-fields.ts';
import type { Fields } from './shapes.ts';

/** What holds for every articulation that says nothing of it. */
export interface Defaults {
  readonly sound: Sound;
  readonly seconds: number | null;
  readonly microphones: readonly (string | null)[] | null;
}

/** Where nothing is said of takes, those of the keys around may be played too. */
const notSaid: RoundRobins = { count: 1, borrow: null };

const noLayers: readonly LayerAxis[] = [];

/** The articulation's own word, else what holds for all; null where its word is that nobody knows. */
const orDefault = <Value>(own: Value | null | undefined, byDefault: Value | null): Value | null =>
  own === undefined ? byDefault : own;

const measuredOf = (bytes: number | null | undefined, at: Place): Measured | null =>
  bytes === null || bytes === undefined ? null : { bytes, at };

/** Without a name there is one for all; two of them that nobody can name are one too many. */
const distinct = (names: readonly (string | null)[] | null): readonly (string | null)[] =>
  names === null ? [null] : [...new Set(names)];

const whenOf = (when: Fields['when']): When => {
  const known = when === undefined || when === null || when === 'player' ? {} : when;
  const { velocity = null, controllers, pressure = null, held = null } = known;
  const ranges = [...(controllers ?? [])].flatMap(([number, range]) =>
    range === null ? [] : [{ number, range }],
  );
  return { velocity, controllers: ranges, pressure, held };
};

/** What is the same of releases and of transitions. */
const partOf = (
  part: NonNullable<Exclude<Fields['releases'], boolean | number>>,
  measuredAt: Place,
): Omit<Releases, 'event'> => ({
  layers: part.layers ?? noLayers,
  roundRobins: part['round-robins'] ?? notSaid,
  seconds: part.seconds ?? null,
  measured: measuredOf(part.measured, measuredAt),
});

const releasesOf = (releases: Fields['releases'], measuredAt: Place): Releases | null => {
  if (releases === undefined || releases === null || releases === false) return null;
  if (releases === true) return { event: null, ...partOf({}, measuredAt) };
  if (typeof releases === 'number') {
    return { event: null, ...partOf({ seconds: releases }, measuredAt) };
  }
  return { event: releases.at ?? null, ...partOf(releases, measuredAt) };
};

const legatoOf = (legato: Fields['legato'], measuredAt: Place): Legato | null => {
  if (legato === undefined || legato === null || legato === false) return null;
  const {
    intervals = null,
    overlap = null,
    returns = null,
    ...part
  } = legato === true ? {} : legato;
  return { intervals, overlap, returns, ...partOf(part, measuredAt) };
};

const ascending = (keys: readonly number[] | null | undefined): readonly number[] | null =>
  keys === null || keys === undefined ? null : [...new Set(keys)].sort((a, b) => a - b);

/** An articulation as the contract has it: all filled in, null for what is not known. */
export const toArticulation = (
  own: OwnFields,
  { fields, keysAt }: Filled,
  { choice, at: choiceAt }: PlacedChoice,
  defaults: Defaults,
): OutlineArticulation => ({
  name: own.name,
  at: own.at,
  choice,
  choiceAt,
  keys: fields.keys ?? null,
  keysAt,
  sampled: ascending(fields.sampled),
  stretch: fields.stretch ?? null,
  layers: fields.layers ?? noLayers,
  roundRobins: fields['round-robins'] ?? notSaid,
  seconds: orDefault(fields.seconds, defaults.seconds),
  sound: {
    rate: orDefault(fields.rate, defaults.sound.rate),
    bits: orDefault(fields.bits, defaults.sound.bits),
    channels: orDefault(fields.channels, defaults.sound.channels),
  },
  microphones: distinct(orDefault(fields.microphones, defaults.microphones)),
  when: whenOf(fields.when),
  releases: releasesOf(fields.releases, own.releasesMeasuredAt),
  legato: legatoOf(fields.legato, own.legatoMeasuredAt),
  measured: measuredOf(own.fields.measured, own.measuredAt),
});
