import type { MissBars, VelocityChange, WayOut } from '../keep/check/check.ts';
import { keyRangeLabel } from '../terms/key.ts';
import { toRanges, type Range } from '../terms/range.ts';
import { formatCount, plural } from './format.ts';
import { isKeySwitch, keySwitch } from './key-switch.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { said, type Said } from './said/said.ts';
import { trackSaid } from './said/track.ts';
import { saidText } from './summary/said-text.ts';

/** More than these in one sentence nobody follows. */
const mostItems = 6;

const span = ([lo, hi]: Range): string => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`);

/** The first items, and how many more there are. */
const some = (items: readonly string[], { details }: Look): string => {
  const shown = details === true ? items : items.slice(0, mostItems);
  const rest = items.length - shown.length;
  return shown.join(', ') + (rest > 0 ? ` and ${formatCount(rest)} more` : '');
};

/** Keys in words, each range with its numbers. */
export const keyWords = (keys: readonly Range[], look: Look): string =>
  some(
    keys.map((range) => keyRangeLabel(range, look.middleC)),
    look,
  );

/** Velocities that become one another: those with the same end are one step for a person. */
const velocityWords = (changes: readonly VelocityChange[], look: Look): string => {
  const ends = [...new Set(changes.map(({ to }) => to))].sort((a, b) => b - a);
  const steps = ends.flatMap((end) =>
    (['raise', 'lower'] as const).flatMap((does) => {
      const own = changes.filter(({ from, to }) => to === end && from < to === (does === 'raise'));
      return own.length === 0 ? [] : [velocityStep(does, own, end, look)];
    }),
  );
  return steps.join('; and ');
};

/** @example 'raise velocity 18, 23, 28 to 31 at G2 (43), 3 notes' */
const velocityStep = (
  does: 'raise' | 'lower',
  own: readonly VelocityChange[],
  end: number,
  look: Look,
): string => {
  const from = toRanges(own.map((change) => change.from)).map(span);
  const keys = keyWords(toRanges(own.map(({ key }) => key)), look);
  const notes = own.reduce((sum, change) => sum + change.notes, 0);
  return `${does} velocity ${some(from, look)} to ${String(end)} at ${keys}, ${plural(notes, 'note')}`;
};

/** A key by the report's own name of it; what is no key is from a file. */
const switchSaid = (text: string, look: Look): Said =>
  isKeySwitch(text) ? [keySwitch(text, look)] : [{ name: text }];

/** What could be played instead, as part of a list: no capital, no full stop. */
export const waySaid = (way: WayOut, look: Look): Said => {
  switch (way.kind) {
    case 'velocity':
      return [velocityWords(way.changes, look)];
    case 'controller': {
      const { number, limit, from, to } = way;
      return limit === 'at-most'
        ? [`controller ${String(number)} at ${String(to)} or below (it goes up to ${String(from)})`]
        : [
            `controller ${String(number)} at ${String(to)} or above (it goes down to ${String(from)})`,
          ];
    }
    case 'articulation': {
      const chosenBy = way.switch === null ? '' : said`, chosen by ${switchSaid(way.switch, look)}`;
      return said`another articulation: ${{ name: way.articulation }}${chosenBy}`;
    }
  }
};

/** The same as text. */
export const wayWords = (way: WayOut, look: Look): string => saidText(waySaid(way, look), look);

/** A track as people find it. Tracks without a name have a number, from 0. */
export const trackWords = (
  { track, trackName }: Pick<MissBars, 'track' | 'trackName'>,
  look: Look,
): string => saidText(trackSaid({ track, trackName }), look);

/** Where to record it instead. @example barsWords(bars, look) // '2m3 v2, Hn 1: bars 31-33, 40' */
export const barsWords = ({ cue, track, trackName, bars }: MissBars, look: Look): string => {
  const single = bars.length === 1 && bars[0]?.[0] === bars[0]?.[1];
  return `${nameInText(cue, look)}, ${trackWords({ track, trackName }, look)}: ${single ? 'bar' : 'bars'} ${some(bars.map(span), look)}`;
};
