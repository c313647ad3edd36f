import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import type {
  OverviewArticulation,
  OverviewInstrument,
} from '../../overview/overview-instrument.ts';
import type { OverviewRow } from '../../overview/overview-map.ts';
import { keyName } from '../../terms/key.ts';
import type { Range } from '../../terms/range.ts';
import { notesWords } from '../said/notes.ts';
import { dynamicSpan, rangeText } from '../said/dynamics.ts';
import { amount } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import { machineName, named, shown } from './names.ts';
import { formatCount, held, inRanges, plural } from './numbers.ts';
import { mapsReduced } from './reduced.ts';
import { scrollBox } from './scroll-box.ts';
import { keyWidth, strip } from './strip.ts';
import { joinKeys, keysInTable } from '../said/playing-words.ts';

const events = { note: '', release: 'release', change: 'set by a controller' } as const;

const isEvery = ([lo, hi]: Range): boolean => lo <= 1 && hi >= 127;

/** What a layer is called: its dynamic, or what chooses it. @example 'ff to fff, velocity 97-127' */
export const rowName = ({ velocity, controllers, event }: OverviewRow): string => {
  // A velocity of 0 ends a note (MIDI 1.0, note-on).
  const heard: Range = [Math.max(velocity[0], 1), velocity[1]];
  const limits = controllers.filter(({ range }) => !isEvery(range));
  const parts = [
    ...(events[event] === '' ? [] : [events[event]]),
    ...(isEvery(velocity) ? [] : [`${dynamicSpan(heard)}, velocity ${rangeText(heard)}`]),
    ...limits.map(({ number, range }) => `CC${String(number)} ${rangeText(range)}`),
  ];
  return parts.length === 0 ? 'every dynamic' : parts.join(', ');
};

/** The keys of all strips of a page, so that they are compared from one instrument to the next. */
export interface Scale {
  readonly lo: number;
  readonly hi: number;
}

/** The style sheet draws the lines at the Cs, and knows three places for the first of them. */
const scaleStep = 4;

/** From the lowest key of any instrument to the highest. */
export const scaleOf = (instruments: readonly Pick<OverviewInstrument, 'keys'>[]): Scale => {
  const all = instruments.flatMap(({ keys }) => (keys === null ? [] : [keys]));
  if (all.length === 0) return { lo: 60, hi: 60 };
  const lowest = Math.min(...all.map(([lo]) => lo));
  return { lo: lowest - (lowest % scaleStep), hi: Math.max(...all.map(([, hi]) => hi)) };
};

/** Keys that the name of one takes. */
const nameKeys = 7;

/** Octave names with numbers, above the strips. */
const ruler = ({ lo, hi }: Scale, middleC: number): Html => {
  const octaves = Array.from({ length: 11 }, (_, i) => 12 * i).filter(
    (key) => key >= lo && (key + nameKeys <= hi || key === lo),
  );
  return markup`<svg class=r width=${(hi - lo + 1) * keyWidth}>${joined(
    octaves.map(
      (key) =>
        markup`<text x=${(key - lo) * keyWidth + 2} y="11" >${keyName(key, middleC)}<tspan> (${key})</tspan></text>`,
    ),
    '',
  )}</svg>`;
};

const rowOf = (row: OverviewRow, { lo }: Scale, middleC: number): Html => {
  const kept = joinKeys(
    row.cells.filter((cell) => cell[4] > 0).map((cell) => [[cell[0], cell[1]]]),
  );
  const words = keysInTable(kept, middleC);
  return markup`<tr><th>${inRanges(rowName(row))}<td>${strip(row.cells, lo)}<td>${formatCount(row.zonesKept)}/${formatCount(row.zones)}${kept.length <= 1 ? markup`<td class=nb>${words}` : markup`<td>${inRanges(words)}`}`;
};

/** Nothing of it stays, so that its layers would be drawn as one and the same. */
const isGone = ({ zones, zonesKept }: OverviewArticulation): boolean =>
  zones > 0 && zonesKept === 0;

/** Where layers are drawn together, or not at all, how many there were is not known. */
const layersOf = ({ reduced }: Overview, { rows }: OverviewArticulation): Html | null =>
  reduced.includes('layers') || reduced.includes('maps')
    ? null
    : markup`${plural(rows.length, 'layer')}, `;

const titleOf = (overview: Overview, one: OverviewArticulation): Html => {
  const { notes, zones, zonesKept, bytes } = one;
  const played = plural(notes, 'note');
  return isGone(one)
    ? markup`${notes > 0 && `${played}, `}gone, ${layersOf(overview, one)}${plural(zones, 'zone')}, ${amount(bytes.full)}`
    : markup`${played}, ${formatCount(zonesKept)} of ${plural(zones, 'zone')}, ${amount(bytes.kept)} of ${amount(bytes.full)}`;
};

const map = (overview: Overview, { id, articulations }: OverviewInstrument, scale: Scale): Html => {
  const { middleC } = overview;
  const isDrawn = (one: OverviewArticulation): boolean => !isGone(one) && one.rows.length > 0;
  const head = articulations.some(isDrawn)
    ? markup`<thead><tr><th scope=col class=l>Layer<td class=l>${ruler(scale, middleC)}<th scope=col>Zones<th scope=col class=l>Keys that stay`
    : null;
  return scrollBox(
    `Map of ${shown(id)}`,
    markup`<table class=g>${head}${articulations.map(
      (one) =>
        markup`<tbody${isGone(one) && markup` class=gone`}><tr><th scope=rowgroup colspan="4"><span><b>${named(one.name)}</b>${one.switch !== null && markup` (${shown(one.switch)})`}: ${titleOf(overview, one)}</span>${isDrawn(one) && one.rows.map((row) => rowOf(row, scale, middleC))}`,
    )}</table>`,
  );
};

const section = (
  overview: Overview,
  instrument: OverviewInstrument,
  index: number,
  scale: Scale,
): Html => {
  const { id, source, machine, bytes, samples, samplesKept } = instrument;
  return markup`<section class=m id="i${index}" data-instrument="${printable(id)}" aria-labelledby="i${index}h" ><h3 id="i${index}h" tabindex="-1">${shown(id)}</h3><p class=n>${named(source)} on machine ${named(machineName(overview, machine))}. ${held(notesWords(instrument))}; ${formatCount(samplesKept)} of ${plural(samples, 'sample')}; ${amount(bytes.kept)} of ${amount(bytes.full)} stay${bytes.low !== bytes.high && markup` (${amount(bytes.low)} to ${amount(bytes.high)})`}.</p>${map(overview, instrument, scale)}</section>`;
};

/** The four ways in which strips are filled; each is a pattern as well as a tone. */
const patterns = markup`<svg class=z aria-hidden=true><defs><pattern id=pd width="4" height="14" patternUnits="userSpaceOnUse" patternTransform="scale(.142857 .0714286)"><path class=pk d="M0 0h1.6v14H0z" /></pattern><pattern id=ps width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="scale(.142857 .0714286)"><circle class=pk cx="2.5" cy="2.5" r="1.1" /></pattern><pattern id=px width="7" height="14" patternUnits="userSpaceOnUse" patternTransform="translate(0 -.5) scale(.142857 .0714286)"><path class=pl d="M0 .5h7M0 13.5h7M0 7L7 0M0 14L7 7" /></pattern></defs></svg>`;

const legend = markup`<ul class=e aria-label="Legend">${(
  [
    ['k', 'kept: notes reach it'],
    ['d', 'doubtful: notes reach it only if a doubt holds'],
    ['p', 'spare: kept without a note'],
    ['x', 'dropped'],
  ] as const
).map(
  ([state, words]) =>
    markup`<li><svg class=s width="28" aria-hidden=true><path class=${state} d="M0 0h4" /></svg>${words}`,
)}</ul>`;

/** Keys from left to right, layers from loud to soft, for each articulation of each instrument. */
export const mapsSection = (overview: Overview): Html => {
  const scale = scaleOf(overview.instruments);
  return markup`<section id=maps class="o${scale.lo % 12}" data-lo=${scale.lo} aria-labelledby="maps-h"><h2 id=maps-h>Keys and layers</h2><p class=n>Keys run from left to right with a line at each C, layers from loud to soft; all strips have one scale of keys. Zones: those that stay, of all. Gone: nothing of it stays. <span class=j hidden>Choose a place with the pointer, or with the arrow keys when a strip has the focus, to see what keeps it.</span></p>${mapsReduced(overview)}${patterns}${legend}<div id=panel hidden></div>${overview.instruments.map((one, i) => section(overview, one, i, scale))}</section>`;
};
