import type { Overview } from '../../overview/overview.ts';
import type { OverviewMachine } from '../../overview/overview-machines.ts';
import { tableUnit } from '../format.ts';
import { hasRange } from '../memory-words.ts';
import { amount, betweenCells, bytesCell } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import { cueName, shown } from './names.ts';
import { formatBytes } from './numbers.ts';
import { plannedOnly } from './planned-only.ts';
import { scrollBox } from './scroll-box.ts';

const height = 150;
const top = 24;
const bottom = 24;
/** A drawing is as wide as its window; widths are in hundredths of it. */
const width = 100;
/** Hundredths that a character of a name takes, where the window is wide and where it is narrow. */
const wideCharacter = 1.1;
const narrowCharacter = 2.6;
/** Names of cues are cut after so many. */
const mostCharacters = 12;

/** What the top of all drawings means: machines are compared by eye. */
const scaleOf = ({ machines, cues }: Overview): number =>
  Math.max(
    1,
    ...machines.map(({ budget }) => budget ?? 0),
    ...cues.flatMap((cue) => cue.machines.map(({ bytes }) => bytes)),
  );

const inPercent = (value: number): string => `${String(Math.round(value * 100) / 100)}%`;

/** Names of cues below their steps: only so many as have room, fewer where the window is narrow. */
const cueNames = (overview: Overview): Html => {
  const names = overview.cues.map((_, cue) =>
    shown(cueName(overview, cue)).slice(0, mostCharacters),
  );
  const step = width / names.length;
  const longest = Math.max(...names.map(({ length }) => length));
  const every = (character: number): number => Math.ceil(((longest + 1) * character) / step);
  const wide = every(wideCharacter);
  // Those of a narrow window are some of those of a wide one.
  const narrow = wide * Math.ceil(every(narrowCharacter) / wide);
  return joined(
    names.map((name, cue) =>
      cue % wide === 0
        ? markup`<text${cue % narrow !== 0 && markup` class=wide`} x="${inPercent(cue * step)}" y=${height - 6} >${name}</text>`
        : null,
    ),
    '',
  );
};

const line = (overview: Overview, machine: OverviewMachine, index: number, most: number): Html => {
  const { cues } = overview;
  const { budget, peak } = machine;
  const values = cues.map(({ machines }) => machines[index]?.bytes ?? 0);
  const step = width / cues.length;
  const y = (bytes: number): number =>
    Math.round(top + (height - top - bottom) * (1 - bytes / most));
  const path = values
    .map((bytes, cue) => `${cue === 0 ? 'M0 ' : 'V'}${String(y(bytes))}H${String(cue + 1)}`)
    .join('');
  const middle = peak === null ? 0 : (peak.cue + 0.5) * step;
  const isRight = middle > width / 2;
  const atPeak =
    peak === null
      ? null
      : markup`<circle cx="${inPercent(middle)}" cy=${y(peak.bytes)} r="3.5" /><text class=b text-anchor=${isRight ? 'end' : 'start'} x="${inPercent(middle)}" y=${Math.max(y(peak.bytes) - 8, 12)} >most: ${shown(cueName(overview, peak.cue))}, ${formatBytes(peak.bytes)}</text>`;
  // On the other side than the peak, so that their words do not meet.
  const limit =
    budget === null
      ? null
      : markup`<text text-anchor=${isRight ? 'start' : 'end'} x="${isRight ? '0' : '100%'}" y=${y(budget) - 6} >budget ${formatBytes(budget)}</text>`;
  const label = `Machine ${shown(machine.id)}: what each cue needs, in running order. The table below has the same figures.`;
  // Lines are drawn in steps of a cue, as wide as the window makes them; words keep their size.
  return markup`<figure><figcaption>Machine ${shown(machine.id)}</figcaption><svg height=${height} role=img aria-label="${label}"><svg viewBox="0 0 ${cues.length} ${height}" preserveAspectRatio=none><path class=o d="M0 ${y(0)}H${cues.length}" />${budget !== null && markup`<path class=u d="M0 ${y(budget)}H${cues.length}" />`}<path class=i d="${path}" /></svg>${limit}${atPeak}${cueNames(overview)}</svg></figure>`;
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
  const isVague = cues.some(hasRange);
  // Where a machine has a range and no cue has, a reader asks why.
  const whyNone = !isVague && machines.some(({ bytes }) => hasRange(bytes));
  const table = markup`<table class=t><caption>What each cue needs, ${unit.name}. To load: what was not there for the cue before; may go: what it does not need of that.</caption><thead><tr><th scope=col class=l>Cue${machines.map(({ id }) => markup`<th scope=col>${shown(id)}`)}<th scope=col>All machines${isVague && markup`<th scope=col>At least<th scope=col>At most`}<th scope=col>To load<th scope=col>May go<tbody>${cues.map(
    (cue) =>
      markup`<tr><th scope=row>${shown(cue.id)}${machines.map((_, i) => bytesCell(cue.machines[i]?.bytes ?? 0, unit))}${bytesCell(cue.bytes, unit)}${isVague && betweenCells(cue, unit)}${bytesCell(cue.load, unit)}${bytesCell(cue.mayGo, unit)}`,
  )}</table>`;
  return markup`<section id=reel aria-labelledby="reel-h"><h2 id=reel-h>Memory along the reel</h2><p class=n>${machines.length > 1 ? 'All drawings have one scale, from' : 'The drawing goes from'} nothing at the foot to ${amount(scaleOf(overview))} at the top.${plannedOnly(overview)}</p><div class=drawn>${drawn}</div>${scrollBox('Table of the memory along the reel', table)}${whyNone && markup`<p class=n>No cue has a range: each needs just what was read off a player's display, or what sizes of samples tell. All that stays together is in part an estimate.</p>`}</section>`;
};
