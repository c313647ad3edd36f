import type { Miss } from '../keep/check/check.ts';
import type { Witness } from '../keep/plan.ts';
import { keyLabel } from '../terms/key.ts';
import { formatCount, formatDuration, plural } from './format.ts';
import { indent, item, led } from './indent.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { keyWords, trackWords } from './ways-out.ts';

/** Cues whose notes are counted out in one block. */
const mostCues = 4;

/** @example placeWords(place, look) // '2m3 v2, bar 31 beat 2 (1:04, 01:00:04:12), Hn 1: C4 (60), velocity 113' */
const placeWords = (place: Witness, look: Look): string => {
  const { cue, bar, beat, seconds, timecode, key, velocity } = place;
  const time = [formatDuration(seconds), ...(timecode === null ? [] : [timecode])].join(', ');
  const what =
    key === null
      ? 'set off by a controller'
      : `${keyLabel(key, look.middleC)}${velocity === null ? '' : `, velocity ${String(velocity)}`}`;
  return `${nameInText(cue, look)}, bar ${String(bar)} beat ${String(beat)} (${time}), ${trackWords(place, look)}: ${what}`;
};

/** What cuts others short is no number of notes: each note may be cut by all that follow it. */
const askers = ({ notes, keys }: Miss): string => {
  if (notes === 0) return 'notes that cut others short';
  if (keys.length > 0) return plural(notes, 'note');
  return `a controller, ${notes === 1 ? 'once' : plural(notes, 'time')}`;
};

const whereAsked = (cues: Miss['cues'], look: Look): string => {
  const all = Object.entries(cues);
  if (all.length === 1) return `in ${nameInText(all[0]![0], look)}`;
  const shown = (look.details === true ? all : all.slice(0, mostCues)).map(([cue, count]) => {
    const name = nameInText(cue, look);
    return count === 0 ? name : `${name}: ${formatCount(count)}`;
  });
  const rest = all.length - shown.length;
  return `(${shown.join(', ')}${rest > 0 ? ` and ${plural(rest, 'more cue')}` : ''})`;
};

const range = (keys: Miss['keys'], velocities: Miss['velocities'], look: Look): string => {
  if (velocities === null) return keyWords(keys, look);
  const [lo, hi] = velocities;
  const how = lo === hi ? `velocity ${String(lo)}` : `velocities ${String(lo)}-${String(hi)}`;
  return `${keyWords(keys, look)}, ${how}`;
};

/** The notes that ask for a missing zone: how many, where, and the first of them. */
export const whoAsks = (miss: Miss, look: Look, atMost: boolean): readonly string[] => {
  const { notes, doubtfulNotes, cues, keys, velocities, places } = miss;
  // Where all of them stand below with key and velocity, that is enough.
  const isAll = notes > 0 && notes <= places.length;
  const played = isAll || keys.length === 0 ? '' : `: ${range(keys, velocities, look)}`;
  const first = isAll ? '' : '; the first';
  return [
    ...led(
      indent,
      [
        `Asked for by ${atMost ? 'up to ' : ''}${askers(miss)} ${whereAsked(cues, look)}${played}${first}`,
      ],
      look,
    ),
    ...places.flatMap((place) => item([placeWords(place, look)], look)),
    ...(doubtfulNotes === 0
      ? []
      : led(
          indent,
          [
            `${plural(doubtfulNotes, 'more note')} ${doubtfulNotes === 1 ? 'asks' : 'ask'} for it only in doubt.`,
          ],
          look,
        )),
  ];
};
