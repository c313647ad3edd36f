import type { KeptZone, Reason, Witness } from '../keep/plan.ts';
import type { Nearest, WhyDropped, WhyKept, WhyZone } from '../keep/why/why.ts';
import { doubtNames, type DoubtName } from '../terms/doubt.ts';
import { keyLabel, keyRangeLabel } from '../terms/key.ts';
import type { Range } from '../terms/range.ts';
import { formatDuration, plural } from './format.ts';
import type { Look } from './look.ts';
import { doubtWords } from './messages/doubts.ts';
import { nameInText } from './name-list.ts';

const rangeText = ([lo, hi]: Range): string =>
  lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`;

/** What a zone answers to, `keys C4-D4 (60-62), velocity 91-127, CC1 64-127`; empty where it is not known. */
export const answersText = (
  { keys, velocities, controllers }: Pick<WhyZone, 'keys' | 'velocities' | 'controllers'>,
  look: Look,
): string =>
  [
    ...(keys === null ? [] : [keyRangeLabel(keys, look.middleC)]),
    ...(velocities === null ? [] : [`velocity ${rangeText(velocities)}`]),
    ...controllers.map(({ number, range }) => `CC${String(number)} ${rangeText(range)}`),
  ].join(', ');

/** Where a note is, as people look it up. @example '2m1 bar 12 beat 1 (0:34), Vc 1, E2 (40), velocity 80' */
export const placeText = (place: Witness, look: Look): string => {
  const { cue, bar, beat, seconds, timecode, track, trackName, key, velocity } = place;
  const name = trackName ?? '';
  return [
    `${nameInText(cue, look)} bar ${String(bar)} beat ${String(beat)} (${timecode ?? formatDuration(seconds)})`,
    name.trim() === '' ? `track ${String(track)}` : nameInText(name, look),
    ...(key === null ? ['a controller'] : [keyLabel(key, look.middleC)]),
    ...(velocity === null ? [] : [`velocity ${String(velocity)}`]),
  ].join(', ');
};

const isDoubt = (reason: string): reason is DoubtName =>
  (doubtNames as readonly string[]).includes(reason);

/** Why a zone stays where no doubt keeps it. */
const reasonWords: Readonly<Record<Exclude<Reason, DoubtName>, string>> = {
  played: 'Played.',
  mutes: 'Kept without its samples: by starting it stops other notes.',
  linked: 'The other half of a stereo pair that stays.',
  pinned: 'Pinned: kept whatever the cues play.',
  headroom: 'Room around what is played.',
  grain: 'Its player can not unload it apart from something that is needed.',
};

/** Why a zone stays, a sentence each. */
export const reasonTexts = ({ reasons }: Pick<KeptZone, 'reasons'>): readonly string[] => {
  const doubts = reasons.filter(isDoubt);
  const others = reasons.filter((reason) => !isDoubt(reason));
  return [
    ...others.map((reason) => reasonWords[reason]),
    ...(doubts.length === 0
      ? []
      : [
          `Not certain: the files do not tell ${doubts.map((one) => `${doubtWords[one]} (${one})`).join(', nor ')}.`,
        ]),
  ];
};

/** In how many notes of which cues, the most first. @param most cues named */
export const cuesText = ({ notes, cues }: WhyKept, most: number, look: Look): string => {
  const all = Object.entries(cues).sort(([, a], [, b]) => b - a);
  const shown = all
    .slice(0, most)
    .map(([cue, count]) => `${nameInText(cue, look)} (${String(count)})`)
    .join(', ');
  const rest = all.length - Math.min(most, all.length);
  return `${plural(notes, 'note')}: ${shown}${rest > 0 ? ` and ${String(rest)} more` : ''}.`;
};

/** What a velocity is that comes nearest: of the hardest layer the hardest, of the softest the softest. */
const extreme = (velocities: Range | null): string => {
  if (velocities !== null && velocities[1] >= 127) return 'hardest';
  return velocities !== null && velocities[0] <= 1 ? 'softest' : 'nearest';
};

/** How a note missed a zone, without its place. */
const missText = (near: Nearest, { keys, velocities, controllers }: WhyDropped): string => {
  const { by, distance, place } = near;
  switch (by) {
    case 'keys': {
      const isBelow = keys !== null && place.key !== null && keys[1] < place.key;
      return `${plural(distance, 'semitone')} ${isBelow ? 'below' : 'above'} the nearest note`;
    }
    case 'velocity': {
      const played = place.velocity ?? 0;
      const isHarder = velocities !== null && velocities[0] > played;
      const needed = isHarder ? played + distance : played - distance;
      return `velocity ${String(needed)} needed, ${String(played)} is the ${extreme(velocities)}`;
    }
    case 'controller': {
      const numbers = controllers.map(
        ({ number, range }) => `CC${String(number)} ${rangeText(range)}`,
      );
      const needed = numbers.length === 0 ? '' : ` of ${numbers.join(' and ')}`;
      return `${plural(distance, 'step')} of a controller short${needed}`;
    }
    case 'articulation':
      return 'its articulation is not chosen where the rest would fit';
    case 'settled':
      return `only if ${near.doubts.join(' and ')} ${near.doubts.length === 1 ? 'were' : 'were'} not settled as plain`;
  }
};

/** What came near: how, where, and how often. */
export const nearestText = (near: Nearest, zone: WhyDropped, look: Look): string => {
  const more = near.notes > 1 ? `; ${plural(near.notes, 'note')} as near` : '';
  return `${missText(near, zone)}: ${placeText(near.place, look)}${more}.`;
};
