import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewList, OverviewStep } from '../../overview/overview-steps.ts';
import { tableUnit, type ByteUnit } from '../format.ts';
import { doesWord, numberRanges, runsOf, unknownSize, type ActionRun } from '../worklist-words.ts';
import { fitsSaid } from '../said/fits.ts';
import { hasOnlyOne } from '../said/step-unit.ts';
import { amount, bytesCell } from './figures.ts';
import { markup, type Html } from './html.ts';
import { missLink } from './missing.ts';
import { missedSteps } from './missed-steps.ts';
import { listed, named, shown } from './names.ts';
import { inRanges, plural } from './numbers.ts';
import { stepsReduced } from './reduced.ts';
import { saidHtml } from './said-html.ts';
import { scrollBox } from './scroll-box.ts';
import { keptPieces, unitPieces } from './step-words.ts';

/** In words, and with no box to tick: what was checked needs what it unloads. */
const doNot = (overview: Overview, { number, missed }: OverviewStep): Html =>
  markup`<b>do not unload</b>, <a href="${missLink(overview, number)}">needed${missed === 'doubt' && ' in doubt'}</a>`;

/** Where the machine fits: whatever comes below it may wait. */
const fitsRow = ({ machines }: Overview, number: number): Html | null => {
  const fitting = machines.find(({ fits, fitsAfter }) => fits === true && fitsAfter === number);
  return fitting === undefined
    ? null
    : markup`<tr class=f><td class=l colspan="8">Machine ${named(fitting.id)} fits from here on.`;
};

/** Those of the steps that take more time than they are worth, below all of them. */
const slightRow = ({ slight: { numbers, frees }, unlisted }: OverviewList): Html | null =>
  numbers.length === 0 || unlisted.steps > 0
    ? null
    : markup`<tbody><tr class=f><td class=l colspan="8">Not worth doing by hand: ${numbers.length === 1 ? 'step' : 'steps'} ${inRanges(numberRanges(numbers))}, ${amount(frees)} in all.`;

/** Why figures of this list are not just those of other parts of the page. */
const otherFigures = (overview: Overview, { id, bytes }: OverviewList): Html => {
  const index = overview.machines.findIndex((one) => one.id === id);
  const planned = overview.machines[index]?.bytes.kept ?? bytes.after;
  const read = overview.instruments.filter(
    (one) => one.machine === index && one.bytes.readings > 0,
  );
  const more = bytes.after - planned;
  return markup`${read.length > 0 && markup`<p class=n>Players' displays were read for ${listed(read.map((one) => one.id))}. A step to or from a state that was read frees the difference to that reading, which may be a little more or less than the maps tell of its zones.</p>`}${more > 0 && markup`<p class=n>When all are done the machine holds ${amount(more)} more than the plan counts: what stays only to stop other notes needs no samples, but by hand it comes with them.</p>`}`;
};

const row = (overview: Overview, action: OverviewStep, unit: ByteUnit): Html => {
  const { number, frees, total, unknownSamples, missed } = action;
  const size = (bytes: number): Html =>
    unknownSamples > 0 ? markup`<td>${unknownSize}` : bytesCell(bytes, unit);
  return markup`<tr id="w${number}"><td>${missed === null && markup`<span class=box></span>`}<td>${number}<td class=l>${missed === null ? doesWord(action) : doNot(overview, action)}<td class=l>${unitPieces(action, hasOnlyOne(overview, action.instrument))}<td class=l>${keptPieces(action, overview.middleC)}${size(frees)}${size(total)}<td class=u>${fitsRow(overview, number)}`;
};

/** The steps of one instrument hold together with its name. */
const group = (
  overview: Overview,
  { instrument, copy, actions }: ActionRun<OverviewStep>,
  unit: ByteUnit,
): Html =>
  markup`<tbody data-instrument="${printable(instrument)}"><tr class=i><th scope=rowgroup colspan="8">${shown(instrument)}${copy !== null && markup`, copy ${named(copy)}`}${actions.map((action) => row(overview, action, unit))}`;

const machine = (overview: Overview, list: OverviewList): Html => {
  const { id, bytes, actions } = list;
  const unit = tableUnit(Math.max(bytes.full, bytes.now, bytes.after));
  const own = overview.machines.find((one) => one.id === id);
  const fits = own === undefined ? null : fitsSaid(own, list);
  const title = markup`<h3>Machine ${named(id)}</h3>`;
  if (actions.length === 0) return markup`${title}<p>Nothing to do.</p>`;
  return markup`${title}<p>${plural(actions.length + list.unlisted.steps, 'step')}: ${amount(bytes.now)} loaded now, ${amount(bytes.after)} when all are done.${fits !== null && markup` ${saidHtml(fits)}`}</p>${otherFigures(overview, list)}${scrollBox(
    `Steps on machine ${shown(id)}`,
    markup`<table class="t a"><thead><tr><th scope=col>Done<th scope=col>Step<th scope=col class=l>Do<th scope=col class=l>What<th scope=col class=l>What stays<th scope=col>Frees ${unit.name}<th scope=col>Then ${unit.name}<th scope=col class=l>Seen on the player${runsOf(actions).map((run) => group(overview, run, unit))}${slightRow(list)}</table>`,
  )}${stepsReduced(list)}`;
};

/** A player that unloads single samples: what is to stay is told by its outermost keys and layers. */
const isByOutline = ({ does, unit, keeps }: OverviewStep): boolean =>
  does === 'unload' && unit.grain === 'sample' && keeps !== null;

/** The steps for a person, to be ticked on paper. */
export const worklistSection = (overview: Overview): Html => {
  const hasOutlines = overview.worklist.some(({ actions }) => actions.some(isByOutline));
  return markup`<section id=worklist aria-labelledby="worklist-h"><h2 id=worklist-h>Worklist</h2>${missedSteps(overview)}<p>Save the full template under a name of its own before the first step. Do the steps of a machine from top to bottom; what is to be loaded comes first. Then: what the machine holds after the step.</p>${hasOutlines && markup`<p>Where a player unloads single samples, What stays names the outermost keys and layers. To keep all between them is safe, and frees less than the line says.</p>`}${overview.worklist.map((one) => machine(overview, one))}<p class=n>These numbers hold for this page alone. <code>keepset worklist --loaded loaded.csv</code> keeps numbers and ticks through later plans.</p></section>`;
};
