import { printable } from '../../terms/printable.ts';
import type { Overview, OverviewList, OverviewStep } from '../../overview/overview.ts';
import { tableUnit, type ByteUnit } from '../format.ts';
import { doesWord, runsOf, unknownSize, type ActionRun } from '../worklist-words.ts';
import { amount, bytesCell } from './figures.ts';
import { markup, type Html } from './html.ts';
import { named, shown } from './names.ts';
import { plural } from './numbers.ts';
import { stepsReduced } from './reduced.ts';
import { scrollBox } from './scroll-box.ts';
import { keptPieces, unitPieces } from './step-words.ts';

const row = (action: OverviewStep, unit: ByteUnit, middleC: number): Html => {
  const { number, frees, total, unknownSamples } = action;
  const size = (bytes: number): Html =>
    unknownSamples > 0 ? markup`<td>${unknownSize}` : bytesCell(bytes, unit);
  return markup`<tr id="w${number}"><td><span class=box></span><td>${number}<td class=l>${doesWord(action)}<td class=l>${unitPieces(action)}<td class=l>${keptPieces(action, middleC)}${size(frees)}${size(total)}<td class=u>`;
};

/** The steps of one instrument hold together with its name. */
const group = (
  { instrument, copy, actions }: ActionRun<OverviewStep>,
  unit: ByteUnit,
  middleC: number,
): Html =>
  markup`<tbody data-instrument="${printable(instrument)}"><tr class=i><th scope=rowgroup colspan="8">${shown(instrument)}${copy !== null && markup`, copy ${named(copy)}`}${actions.map((action) => row(action, unit, middleC))}`;

const machine = (list: OverviewList, middleC: number): Html => {
  const { id, bytes, actions } = list;
  const unit = tableUnit(Math.max(bytes.full, bytes.now, bytes.after));
  const title = markup`<h3>Machine ${named(id)}</h3>`;
  if (actions.length === 0) return markup`${title}<p>Nothing to do.</p>`;
  return markup`${title}<p>${plural(actions.length + list.unlisted.steps, 'step')}: ${amount(bytes.now)} loaded now, ${amount(bytes.after)} when all are done.</p>${scrollBox(
    `Steps on machine ${shown(id)}`,
    markup`<table class="t a"><thead><tr><th scope=col>Done<th scope=col>Step<th scope=col class=l>Do<th scope=col class=l>What<th scope=col class=l>What stays<th scope=col>Frees ${unit.name}<th scope=col>Then ${unit.name}<th scope=col class=l>Seen on the player${runsOf(actions).map((run) => group(run, unit, middleC))}</table>`,
  )}${stepsReduced(list)}`;
};

/** The steps for a person, to be ticked on paper. */
export const worklistSection = ({ worklist, middleC }: Overview): Html =>
  markup`<section id=worklist aria-labelledby="worklist-h"><h2 id=worklist-h>Worklist</h2><p>Save the full template under a name of its own before the first step. Do the steps of a machine from top to bottom; what is to be loaded comes first. Then: what the machine holds after the step.</p>${worklist.map((one) => machine(one, middleC))}<p class=n>These numbers hold for this page alone. <code>keepset worklist --loaded loaded.csv</code> keeps numbers and ticks through later plans.</p></section>`;
