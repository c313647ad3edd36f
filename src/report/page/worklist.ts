import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewList, OverviewStep } from '../../overview/overview-steps.ts';
import { tableUnit, type ByteUnit } from '../format.ts';
import { doesWord, runsOf, unknownSize, type ActionRun } from '../worklist-words.ts';
import { amount, bytesCell } from './figures.ts';
import { markup, type Html } from './html.ts';
import { named, shown } from './names.ts';
import { plural } from './numbers.ts';
import { stepsReduced } from './reduced.ts';
import { scrollBox } from './scroll-box.ts';
import { hasOnlyOne, keptPieces, unitPieces } from './step-words.ts';

const row = (overview: Overview, action: OverviewStep, unit: ByteUnit): Html => {
  const { number, frees, total, unknownSamples } = action;
  const size = (bytes: number): Html =>
    unknownSamples > 0 ? markup`<td>${unknownSize}` : bytesCell(bytes, unit);
  return markup`<tr id="w${number}"><td><span class=box></span><td>${number}<td class=l>${doesWord(action)}<td class=l>${unitPieces(action, hasOnlyOne(overview, action.instrument))}<td class=l>${keptPieces(action, overview.middleC)}${size(frees)}${size(total)}<td class=u>`;
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
  const title = markup`<h3>Machine ${named(id)}</h3>`;
  if (actions.length === 0) return markup`${title}<p>Nothing to do.</p>`;
  return markup`${title}<p>${plural(actions.length + list.unlisted.steps, 'step')}: ${amount(bytes.now)} loaded now, ${amount(bytes.after)} when all are done.</p>${scrollBox(
    `Steps on machine ${shown(id)}`,
    markup`<table class="t a"><thead><tr><th scope=col>Done<th scope=col>Step<th scope=col class=l>Do<th scope=col class=l>What<th scope=col class=l>What stays<th scope=col>Frees ${unit.name}<th scope=col>Then ${unit.name}<th scope=col class=l>Seen on the player${runsOf(actions).map((run) => group(overview, run, unit))}</table>`,
  )}${stepsReduced(list)}`;
};

/** A player that unloads single samples: what is to stay is told by its outermost keys and layers. */
const isByOutline = ({ does, unit, keeps }: OverviewStep): boolean =>
  does === 'unload' && unit.grain === 'sample' && keeps !== null;

/** The steps for a person, to be ticked on paper. */
export const worklistSection = (overview: Overview): Html => {
  const hasOutlines = overview.worklist.some(({ actions }) => actions.some(isByOutline));
  return markup`<section id=worklist aria-labelledby="worklist-h"><h2 id=worklist-h>Worklist</h2><p>Save the full template under a name of its own before the first step. Do the steps of a machine from top to bottom; what is to be loaded comes first. Then: what the machine holds after the step.</p>${hasOutlines && markup`<p>Where a player unloads single samples, What stays names the outermost keys and layers. To keep all between them is safe, and frees less than the line says.</p>`}${overview.worklist.map((one) => machine(overview, one))}<p class=n>These numbers hold for this page alone. <code>keepset worklist --loaded loaded.csv</code> keeps numbers and ticks through later plans.</p></section>`;
};
