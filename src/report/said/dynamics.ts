import { intersect, type Range } from '../../terms/range.ts';
import type { OtherControl, PlayableStretch } from '../../overview/overview-playable.ts';

/**
 * Dynamics as even eighths of 1-127 (common practice: standards name none). A page says so once, with
 * the numbers.
 */
export const dynamicNames = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff'] as const;

/** Values in an eighth; the last has one less. */
const width = 16;

/** The values of a dynamic. @example eighth(0) // [1, 16] */
export const eighth = (dynamic: number): Range => [
  dynamic * width + 1,
  Math.min((dynamic + 1) * width, 127),
];

/** The dynamic in which a value lies, 0 to 7. A controller at 0 is as soft as one at 1. */
const dynamicOf = (value: number): number => Math.floor((Math.max(value, 1) - 1) / width);

const nameOf = (dynamic: number): string => dynamicNames[dynamic] ?? '';

export const rangeText = ([lo, hi]: Range): string =>
  lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`;

/**
 * Dynamics that lie wholly in a range of values, as {@link dynamicsWords} names them; where none does, of
 * which it is a part.
 *
 * @example dynamicSpan([45, 84]) // 'mp to mf'
 */
export const dynamicSpan = (range: Range): string => {
  const isIn = (dynamic: number): boolean => {
    const [lo, hi] = eighth(dynamic);
    return range[0] <= lo && hi <= range[1];
  };
  const whole = dynamicNames.filter((_, dynamic) => isIn(dynamic));
  const touched = [dynamicOf(range[0]), dynamicOf(range[1])].map(nameOf);
  const [first, last] = whole.length > 0 ? [whole[0], whole.at(-1)] : touched;
  const [from, to] = [first ?? '', last ?? ''];
  if (whole.length > 0) return from === to ? from : `${from} to ${to}`;
  return from === to ? `part of ${from}` : `part of ${from} and ${to}`;
};

/**
 * A safe range in dynamics that lie in it wholly, as far as the instrument answers to them: what is
 * said may be written in full.
 */
const wordsOf = (safe: Range, all: Range): string => {
  const whole = dynamicNames.flatMap((_, dynamic) => {
    const asked = intersect(eighth(dynamic), [Math.max(all[0], 1), all[1]]);
    return asked !== null && asked[0] >= safe[0] && asked[1] <= safe[1] ? [dynamic] : [];
  });
  const [first, last] = [whole[0], whole.at(-1)];
  if (first === undefined || last === undefined) {
    const [from, to] = [dynamicOf(safe[0]), dynamicOf(safe[1])];
    return from === to
      ? `only a part of ${nameOf(from)}`
      : `only between ${nameOf(from)} and ${nameOf(to)}`;
  }
  if (safe[0] <= Math.max(all[0], 1)) return `up to ${nameOf(last)}`;
  if (safe[1] >= all[1]) return `from ${nameOf(first)}`;
  return first === last ? nameOf(first) : `${nameOf(first)} to ${nameOf(last)}`;
};

const controlName = (by: 'velocity' | number): string =>
  by === 'velocity' ? 'velocity' : `CC${String(by)}`;

type Dynamics = PlayableStretch['dynamics'][number];

const isWhole = ({ safe, all }: Dynamics): boolean =>
  safe.some(([lo, hi]) => lo <= all[0] && hi >= all[1]);

/** null: none of its values is free whatever the other controls do. */
const oneControl = ({ by, safe, all }: Dynamics): string | null => {
  // A velocity of 0 ends a note (MIDI 1.0, note-on).
  const most: Range = by === 'velocity' ? [Math.max(all[0], 1), all[1]] : all;
  const known = safe.map((range) => intersect(range, most)).filter((range) => range !== null);
  if (known.length === 0) return null;
  const said = known.map((range) => wordsOf(range, all)).join(' and ');
  return `${said} (${controlName(by)} ${known.map(rangeText).join(', ')})`;
};

/** What is safe as long as all of these controls stay where they are said to. */
const allControls = (
  together: PlayableStretch['together'],
  dynamics: readonly Dynamics[],
): string =>
  together
    .map(({ by, range }) => {
      const all = dynamics.find((one) => one.by === by)?.all ?? [0, 127];
      return `${wordsOf(range, all)} (${controlName(by)} ${rangeText(range)})`;
    })
    .join(' together with ');

const otherNames: Readonly<Record<OtherControl, string>> = {
  'note-before': 'the note before',
  'held-keys': 'the keys held',
  bend: 'pitch bend',
  pressure: 'pressure',
  tempo: 'tempo',
};

const nameOfControl = (by: PlayableStretch['dependsOn'][number]): string =>
  by === 'velocity' || typeof by === 'number' ? controlName(by) : otherNames[by];

/**
 * How loud and how soft may be written, in words with their numbers; null: every dynamic. A limit holds
 * whatever the other controls do, so that of several either is enough; where none has one, they have to
 * be kept together; where not even that is safe, what decides is named.
 *
 * @example dynamicsWords({ dynamics: [{ by: 'velocity', safe: [[1, 112]], all: [1, 127] }], together: [], dependsOn: [] })
 * // 'up to ff (velocity 1-112)'
 */
export const dynamicsWords = ({
  dynamics,
  together,
  dependsOn,
}: Omit<PlayableStretch, 'keys'>): string | null => {
  if (dynamics.length === 0 || dynamics.some(isWhole)) return null;
  const limits = dynamics.map(oneControl).filter((one) => one !== null);
  if (limits.length > 0) return limits.join(' or ');
  if (together.length > 0) return allControls(together, dynamics);
  const names = dependsOn.map(nameOfControl);
  const last = names.pop();
  if (last === undefined) return 'in part';
  return `in part, by ${names.length === 0 ? last : `${names.join(', ')} and ${last}`}`;
};
