import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import type { OverviewRow } from '../../overview/overview-map.ts';
import { keyName } from '../../terms/key.ts';
import type { Range } from '../../terms/range.ts';
import { dynamicSpan, rangeText } from './dynamics.ts';
import { amount } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import { machineName, named, shown } from './names.ts';
import { formatCount, plural } from './numbers.ts';
import { mapsReduced } from './reduced.ts';
import { scrollBox } from './scroll-box.ts';
import { keyWidth, strip } from './strip.ts';
import { joinKeys, keysInTable } from './words.ts';

const events = { note: '', release: 'release', change: 'set by a controller' } as const;

const isEvery = ([lo, hi]: Range): boolean => lo <= 1 && hi >= 127;

/** What a layer is called: its dynamic, or what chooses it. @example 'f-fff, velocity 81-127' */
export const rowName = ({ velocity, controllers, event }: OverviewRow): string => {
  const limits = controllers.filter(({ range }) => !isEvery(range));
  const parts = [
    ...(events[event] === '' ? [] : [events[event]]),
    ...(isEvery(velocity) ? [] : [`${dynamicSpan(velocity)}, velocity ${rangeText(velocity)}`]),
    ...limits.map(({ number, range }) => `CC${String(number)} ${rangeText(range)}`),
  ];
  return parts.length === 0 ? 'every dynamic' : parts.join(', ');
};

/** From a C to the key before another, so that octaves stand whole. */
export const octavesAround = ([lo, hi]: Range): { readonly lo: number; readonly keys: number } => {
  const first = lo - (lo % 12);
  return { lo: first, keys: hi - (hi % 12) + 12 - first };
};

/** Octave names with numbers, above the strips. */
const ruler = (lo: number, keys: number, middleC: number): Html => {
  const octaves = Array.from({ length: keys / 12 }, (_, i) => lo + 12 * i);
  return markup`<svg class=r width=${keys * keyWidth}>${joined(
    octaves.map(
      (key) =>
        markup`<text x=${(key - lo) * keyWidth + 2} y="11" >${keyName(key, middleC)} (${key})</text>`,
    ),
    '',
  )}</svg>`;
};

const rowOf = (row: OverviewRow, lo: number, middleC: number): Html => {
  const kept = joinKeys(
    row.cells.filter((cell) => cell[4] > 0).map((cell) => [[cell[0], cell[1]]]),
  );
  return markup`<tr><th>${rowName(row)}<td>${strip(row.cells, lo)}<td>${formatCount(row.zonesKept)}/${formatCount(row.zones)}<td${kept.length <= 2 && markup` class=nb`}>${keysInTable(kept, middleC)}`;
};

const map = (instrument: OverviewInstrument, middleC: number): Html => {
  const { id, keys: range, articulations } = instrument;
  const { lo, keys } = octavesAround(range ?? [60, 60]);
  return scrollBox(
    `Map of ${shown(id)}`,
    markup`<table class=g><thead><tr><th scope=col class=l>Layer<td class=l>${ruler(lo, keys, middleC)}<th scope=col>Zones<th scope=col class=l>Keys that stay${articulations.map(
      ({ name, switch: by, notes, zones, zonesKept, bytes, rows }) =>
        markup`<tbody><tr><th scope=rowgroup colspan="4"><b>${named(name)}</b>${by !== null && markup` (${shown(by)})`}: ${plural(notes, 'note')}, ${formatCount(zonesKept)} of ${plural(zones, 'zone')}, ${amount(bytes.kept)} of ${amount(bytes.full)}${rows.map((row) => rowOf(row, lo, middleC))}`,
    )}</table>`,
  );
};

const section = (overview: Overview, instrument: OverviewInstrument, index: number): Html => {
  const { id, source, machine, bytes, notes, samples, samplesKept, keys } = instrument;
  const { lo } = octavesAround(keys ?? [60, 60]);
  return markup`<section class=m id="i${index}" data-instrument="${printable(id)}" data-lo=${lo} aria-labelledby="i${index}h" ><h3 id="i${index}h" tabindex="-1">${shown(id)}</h3><p class=n>${named(source)} on machine ${named(machineName(overview, machine))}. ${plural(notes, 'note')}; ${formatCount(samplesKept)} of ${plural(samples, 'sample')}; ${amount(bytes.kept)} of ${amount(bytes.full)} stay${bytes.low !== bytes.high && markup` (${amount(bytes.low)} to ${amount(bytes.high)})`}.</p>${map(instrument, overview.middleC)}</section>`;
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
export const mapsSection = (overview: Overview): Html =>
  markup`<section id=maps aria-labelledby="maps-h"><h2 id=maps-h>Keys and layers</h2><p class=n>Keys run from left to right with a line at each C, layers from loud to soft. Zones: those that stay, of all. <span class=j hidden>Choose a place with the pointer, or with the arrow keys when a strip has the focus, to see what keeps it.</span></p>${mapsReduced(overview)}${patterns}${legend}<div id=panel hidden></div>${overview.instruments.map((one, i) => section(overview, one, i))}</section>`;
