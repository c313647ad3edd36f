import type { MissBars } from '../../keep/check/check.ts';
import type { Witness } from '../../keep/plan.ts';
import type { OverviewMiss } from '../../overview/overview-proof.ts';
import type { Overview } from '../../overview/overview.ts';
import { keyRangeLabel } from '../../terms/key.ts';
import { formatCount, formatDuration, plural } from '../format.ts';
import type { Look } from '../look.ts';
import { doubtWords } from '../messages/doubts.ts';
import { rangeText } from './dynamics.ts';
import { waySaid } from '../ways-out.ts';
import { joinedSaid, listedSaid, said, type Said } from './said.ts';
import { trackSaid } from './track.ts';
import { placeSaid } from './verdict.ts';

/** Misses that are listed; the command that tells of all is named below. */
export const mostMisses = 12;

/** A miss in words. */
export interface MissSaid {
  /** What of its instrument it is; stands right behind the instrument's name. */
  readonly of: Said;
  readonly zones: Said;
  /** Who asks for it: how many notes, which keys and velocities. */
  readonly notes: Said;
  /** The first places, with the time there. */
  readonly places: readonly Said[];
  /** What only a doubt asks for; null: nothing. No full stop. */
  readonly doubt: Said | null;
  /** What can be done, each without a full stop: to load it again comes first, to print it last. */
  readonly ways: readonly Said[];
}

export const missSaid = (miss: OverviewMiss, look: Look): MissSaid => {
  const { copy, articulations, zones, doubtfulZones, places } = miss;
  const ofCopy = copy === null ? '' : said` copy ${{ name: copy }}`;
  const what = articulations.length === 0 ? '' : said`, ${listedSaid(articulations, 4)}`;
  return {
    of: said`${ofCopy}${what}`,
    zones: [plural(zones > 0 ? zones : doubtfulZones, 'zone')],
    notes: notesSaid(miss, look),
    places: places.map(placeAndTimeSaid),
    doubt: doubtSaid(miss),
    ways: [
      loadSaid(miss),
      ...miss.ways.map((way) => waySaid(way, look)),
      said`print as audio${printSaid(miss)}`,
    ],
  };
};

const notesSaid = (miss: OverviewMiss, look: Look): Said => {
  const asked = askersWords(miss);
  const velocities = miss.velocities === null ? [] : [`velocity ${rangeText(miss.velocities)}`];
  const keys = miss.keys.map((range) => keyRangeLabel(range, look.middleC));
  return [[asked, ...keys, ...velocities].join(', ')];
};

/** Who asks, in the words of `check`. */
const askersWords = (miss: OverviewMiss): string => {
  const [count, isAtMost] =
    miss.zones > 0
      ? [miss.notes, miss.notesAtMost]
      : [miss.doubtfulNotes, miss.doubtfulNotesAtMost];
  const upTo = isAtMost ? 'up to ' : '';
  switch (miss.askedBy) {
    case 'cuts':
      return 'notes that cut others short';
    case 'controllers':
      return `a controller, ${upTo}${count === 1 ? 'once' : plural(count, 'time')}`;
    case 'notes':
      return `${upTo}${plural(count, 'note')}`;
  }
};

/** @example '2m2 v2 bar 12 beat 1, Hn 1 (0:36, 02:00:36:00)' */
const placeAndTimeSaid = (place: Witness): Said => {
  const time = formatDuration(place.seconds);
  const times = place.timecode === null ? [time] : [time, place.timecode];
  return said`${placeSaid(place)} (${times.join(', ')})`;
};

const doubtSaid = ({
  zones,
  doubtfulZones,
  doubtfulNotes,
  doubtfulNotesAtMost,
  doubts,
}: OverviewMiss): Said | null => {
  const depends =
    doubts.length === 0
      ? ''
      : `: it depends on ${doubts.map((name) => `${doubtWords[name]} (${name})`).join(', ')}`;
  if (zones === 0) return [`only in doubt${depends}`];
  const more = [
    ...(doubtfulZones > 0 ? [`${plural(doubtfulZones, 'more zone')} only in doubt${depends}`] : []),
    ...(doubtfulNotes > 0
      ? [`${doubtfulNotesAtMost ? 'up to ' : ''}${plural(doubtfulNotes, 'more note')} in doubt`]
      : []),
  ];
  return more.length === 0 ? null : [more.join('; ')];
};

const loadSaid = ({ bytes, bytesAtMost, fits, machine }: OverviewMiss): Said => {
  const isRoom =
    fits === null
      ? ''
      : said`, which ${fits ? 'fits' : 'does not fit'} on machine ${{ name: machine }}`;
  return said`load it again, ${bytesAtMost ? 'at most ' : ''}${{ bytes }}${isRoom}`;
};

/** Where to record it instead. */
const printSaid = ({ zones, doubtfulZones, bars, doubtfulBars }: OverviewMiss): Said => {
  const certain = zones > 0 ? bars : doubtfulBars;
  if (certain.length === 0) return said`: ${{ command: 'keepset check --verbose' }} names the bars`;
  const first = joinedSaid(certain.map(barsSaid), '; ');
  return zones === 0 || doubtfulZones === 0 || doubtfulBars.length === 0
    ? said`: ${first}`
    : said`: ${first} (what is in doubt: ${joinedSaid(doubtfulBars.map(barsSaid), '; ')})`;
};

/** @example '2m2 v2, Ob 1: bars 24-25' */
const barsSaid = ({ cue, track, trackName, bars }: MissBars): Said => {
  const spans = bars.map(([lo, hi]) => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`));
  const isOne = bars.length === 1 && bars[0]![0] === bars[0]![1];
  return said`${{ name: cue }}, ${trackSaid({ track, trackName })}: ${isOne ? 'bar' : 'bars'} ${spans.join(', ')}`;
};

/** Misses that are not on the list; null: all are. */
export const moreMisses = ({ proof }: Overview): Said | null => {
  const rest = proof.misses.length + proof.unlisted - Math.min(mostMisses, proof.misses.length);
  return rest <= 0
    ? null
    : said`${formatCount(rest)} more: ${{ command: 'keepset check --verbose' }} tells of all of them, with the ways out.`;
};
