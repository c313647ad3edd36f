import type { Overview } from '../../overview/overview.ts';
import type { OverviewMachine } from '../../overview/overview-machines.ts';
import { tableUnit } from '../format.ts';
import { amount, bytesCell } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import { cueName, shown } from './names.ts';
import { formatBytes } from './numbers.ts';
import { scrollBox } from './scroll-box.ts';

const width = 960;
const height = 150;
const top = 24;
const bottom = 22;
/** Names of cues that fit below a line. */
const mostNames = 20;
/** Half the width of the words at the peak. */
const peakRoom = 110;

/** What the top of all drawings means: machines are compared by eye. */
const scaleOf = ({ machines, cues }: Overview): number =>
  Math.max(
    1,
    ...machines.map(({ budget }) => budget ?? 0),
    ...cues.flatMap((cue) => cue.machines.map(({ bytes }) => bytes)),
  );

const line = (overview: Overview, machine: OverviewMachine, index: number, most: number): Html => {
  const { cues } = overview;
  const { budget, peak } = machine;
  const values = cues.map(({ machines }) => machines[index]?.bytes ?? 0);
  const step = width / cues.length;
  const y = (bytes: number): number =>
    Math.round(top + (height - top - bottom) * (1 - bytes / most));
  const x = (cue: number): number => Math.round(cue * step);
  const path = values
    .map((bytes, cue) => `${cue === 0 ? 'M0 ' : 'V'}${String(y(bytes))}H${String(x(cue + 1))}`)
    .join('');
  const every = Math.ceil(cues.length / mostNames);
  const names = cues.map((_, cue) =>
    cue % every === 0
      ? markup`<text x=${x(cue) + 2} y=${height - 6} >${shown(cueName(overview, cue)).slice(0, 12)}</text>`
      : null,
  );
  // Above its own step, except where the drawing ends.
  const middle = peak === null ? 0 : Math.round(x(peak.cue) + step / 2);
  const isNear = (end: number): boolean => Math.abs(middle - end) < peakRoom;
  const [anchor, anchorX] = isNear(0)
    ? ['start', 2]
    : isNear(width)
      ? ['end', width - 2]
      : ['middle', middle];
  const atPeak =
    peak === null
      ? null
      : markup`<circle cx=${middle} cy=${y(peak.bytes)} r="3.5" /><text class=b text-anchor="${anchor}" x=${anchorX} y=${Math.max(y(peak.bytes) - 7, 11)} >most: ${shown(cueName(overview, peak.cue))}, ${formatBytes(peak.bytes)}</text>`;
  const limit =
    budget === null
      ? null
      : markup`<path class=u d="M0 ${y(budget)}H${width}" /><text text-anchor="end" x=${width} y=${y(budget) - 5} >budget ${formatBytes(budget)}</text>`;
  const label = `Machine ${shown(machine.id)}: what each cue needs, in running order. The table below has the same figures.`;
  return markup`<figure><figcaption>Machine ${shown(machine.id)}</figcaption><svg viewBox="0 0 ${width} ${height}" role=img aria-label="${label}"><path class=o d="M0 ${y(0)}H${width}" /> ${limit}<path class=i d="${path}" /> ${atPeak}${joined(names, '')}</svg></figure>`;
};

/** What is needed along the reel, drawn for each machine, and as a table. */
export const reelSection = (overview: Overview): Html => {
  const { cues, machines } = overview;
  if (cues.length === 0) {
    return markup`<section id=reel aria-labelledby="reel-h"><h2 id=reel-h>Memory along the reel</h2><p>There are no cues.</p></section>`;
  }
  const unit = tableUnit(Math.max(...cues.map(({ bytes }) => bytes)));
  const drawn = machines.map((machine, i) =>
    machine.peak === null ? null : line(overview, machine, i, scaleOf(overview)),
  );
  const table = markup`<table class=t><caption>What each cue needs, ${unit.name}. To load: what was not there for the cue before; may go: what it does not need of that.</caption><thead><tr><th scope=col class=l>Cue${machines.map(({ id }) => markup`<th scope=col>${shown(id)}`)}<th scope=col>All machines<th scope=col>At least<th scope=col>At most<th scope=col>To load<th scope=col>May go<tbody>${cues.map(
    (cue) =>
      markup`<tr><th scope=row>${shown(cue.id)}${machines.map((_, i) => bytesCell(cue.machines[i]?.bytes ?? 0, unit))}${bytesCell(cue.bytes, unit)}${bytesCell(cue.low, unit)}${bytesCell(cue.high, unit)}${bytesCell(cue.load, unit)}${bytesCell(cue.mayGo, unit)}`,
  )}</table>`;
  return markup`<section id=reel aria-labelledby="reel-h"><h2 id=reel-h>Memory along the reel</h2><p class=n>${machines.length > 1 ? 'All drawings have one scale, from' : 'The drawing goes from'} nothing at the foot to ${amount(scaleOf(overview))} at the top.</p>${scrollBox('Drawing of the memory along the reel', markup`<div class=drawn>${drawn}</div>`)}${scrollBox('Table of the memory along the reel', table)}</section>`;
};
