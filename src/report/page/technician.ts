import { printable } from '../../terms/printable.ts';
import type { DoubtName } from '../../terms/doubt.ts';
import { toRanges } from '../../terms/range.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewMachine } from '../../overview/overview-machines.ts';
import type { OverviewAction } from '../../overview/overview-steps.ts';
import type { PlanDoubt } from '../../keep/plan.ts';
import { tableUnit } from '../format.ts';
import { hasRange } from '../memory-words.ts';
import { doubtWords } from '../messages/doubts.ts';
import { fitsWords } from '../said/fits.ts';
import { actionUnit, type ActionUnit } from '../said/action-unit.ts';
import { nothingToDo } from '../said/nothing-to-do.ts';
import { unknownSize } from '../worklist-words.ts';
import { amount, betweenCells, bytesCell, bytesCellOr } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import { instrumentName, listed, machineName, named, shown } from './names.ts';
import { formatCount, held, inRanges, plural } from './numbers.ts';
import { roomSection } from './room.ts';
import { scrollBox } from './scroll-box.ts';
import { keptPieces, phrasePieces } from './step-words.ts';

const machines = (overview: Overview): Html => {
  const all = overview.machines;
  const unit = tableUnit(
    Math.max(...all.map(({ bytes, budget }) => Math.max(bytes.full, budget ?? 0)), 0),
  );
  const isVague = all.some(({ bytes }) => hasRange(bytes));
  const peak = ({ peak: most }: OverviewMachine): Html =>
    most === null ? markup`<td>` : bytesCell(most.bytes, unit);
  return scrollBox(
    'Machines',
    markup`<table class=t><caption>Memory of each machine, ${unit.name}. Now: everything loaded. After: all that goes is unloaded.</caption><thead><tr><th scope=col class=l>Machine<th scope=col>Now<th scope=col>After<th scope=col>Saved<th scope=col>Budget${isVague && markup`<th scope=col>At least<th scope=col>At most`}<th scope=col class=l>Fits<th scope=col>Largest cue<th scope=col>Steps<tbody>${all.map(
      (machine) => {
        const { id, bytes, budget, steps } = machine;
        return markup`<tr data-machine="${printable(id)}"><th scope=row>${shown(id)}${bytesCell(bytes.full, unit)}${bytesCell(bytes.kept, unit)}${bytesCell(bytes.full - bytes.kept, unit)}${bytesCellOr(budget, unit, 'none')}${isVague && betweenCells(bytes, unit)}<td class=l>${held(fitsWords(machine))}${peak(machine)}<td>${formatCount(steps)}`;
      },
    )}</table>`,
  );
};

/** Numbers of steps, each run of them with a link to its first where the page lists that. */
const stepLinks = ({ numbers }: OverviewAction, { steps }: ActionUnit): Html =>
  joined(
    toRanges(numbers).map(([first, last]) => {
      const words = inRanges(first === last ? String(first) : `${String(first)}-${String(last)}`);
      return steps.some(({ number }) => number === first)
        ? markup`<a href="#w${first}">${words}</a>`
        : words;
    }),
    ', ',
  );

/** What stays where the steps are told alike; else each of them says it. */
const whatStays = ({ steps }: ActionUnit, middleC: number): Html | null => {
  const each = new Set(steps.map((step) => keptPieces(step, middleC)?.text ?? null));
  const [first] = steps;
  if (first === undefined) return null;
  return each.size === 1 ? keptPieces(first, middleC) : markup`see the steps`;
};

const actions = (overview: Overview): Html => {
  const most = overview.actions;
  if (most.length === 0) return markup`<p>${nothingToDo(overview)}</p>`;
  const unit = tableUnit(Math.max(...most.map(({ frees }) => frees)));
  const what =
    most.length === 1
      ? markup`What frees`
      : markup`The ${formatCount(most.length)} things to unload that free`;
  return scrollBox(
    'What frees most',
    markup`<table class=t><caption>${what} most, ${unit.name}. The steps of one articulation count together.</caption><thead><tr><th scope=col>Steps<th scope=col class=l>Machine<th scope=col class=l>Instrument<th scope=col class=l>What to unload<th scope=col class=l>What stays<th scope=col>Frees<tbody>${most.map(
      (action) => {
        const unloads = actionUnit(overview, action);
        const [copy, ...others] = unloads.copies;
        const of =
          others.length > 0
            ? markup`, ${plural(unloads.copies.length, 'copy', 'copies')}`
            : copy !== undefined && markup`, copy ${named(copy)}`;
        const frees = unloads.isUnknown
          ? markup`<td>${unknownSize}`
          : bytesCell(action.frees, unit);
        return markup`<tr><td>${stepLinks(action, unloads)}<td class=l>${shown(machineName(overview, action.machine))}<th scope=row>${shown(instrumentName(overview, action.instrument))}${of}<td class=l>${phrasePieces(unloads)}<td class=l>${whatStays(unloads, overview.middleC)}${frees}`;
      },
    )}</table>`,
  );
};

const turn = { open: 0, accept: 1, plain: 2 } as const;
const answers = { open: 'open', accept: 'accepted', plain: 'settled as plain' } as const;

/** Open ones first, the dearest on top. */
const byPrice = (a: PlanDoubt, b: PlanDoubt): number =>
  turn[a.settled ?? 'open'] - turn[b.settled ?? 'open'] || b.bytes - a.bytes || b.zones - a.zones;

const placesOf = ({ instruments }: Overview, at: readonly number[]): Html =>
  listed(
    at.map((instrument) => instruments[instrument]?.id ?? ''),
    4,
  );

/** The answer for all, or where there is one for some. */
const answer = (
  overview: Overview,
  { name, settled }: Pick<PlanDoubt, 'name' | 'settled'>,
): Html => {
  const at = overview.doubtsAt.find((one) => one.name === name);
  if (settled !== null || at === undefined) return markup`${answers[settled ?? 'open']}`;
  const some = [
    ...(at.accepted.length > 0 ? [markup`accepted for ${placesOf(overview, at.accepted)}`] : []),
    ...(at.plain.length > 0 ? [markup`plain at ${placesOf(overview, at.plain)}`] : []),
  ];
  return joined(['open', ...some], '; ');
};

const openAt = (overview: Overview, doubt: DoubtName): Html =>
  placesOf(overview, overview.doubtsAt.find(({ name }) => name === doubt)?.instruments ?? []);

const doubts = (overview: Overview): Html => {
  const { together, doubtsAll } = overview;
  if (overview.doubts.length === 0) {
    return markup`<p>Nothing is in doubt: the files as they are reach every zone that stays.</p>`;
  }
  const unit = tableUnit(Math.max(doubtsAll, ...overview.doubts.map(({ bytes }) => bytes)));
  const both = together.map(
    ({ names, bytes }) => markup`${names.join(' and ')} together ${amount(bytes)}`,
  );
  return markup`${scrollBox(
    'Doubts by price',
    markup`<table class=t><caption>What the files do not tell, and what an answer would free, ${unit.name}.</caption><thead><tr><th scope=col class=l>Doubt<th scope=col class=l>The files do not tell<th scope=col class=l>Answer<th scope=col class=l>Open at<th scope=col>Zones<th scope=col>Frees<tbody>${[
      ...overview.doubts,
    ]
      .sort(byPrice)
      .map(
        ({ zones, bytes, ...doubt }) =>
          markup`<tr><th scope=row>${doubt.name}<td class=l>${doubtWords[doubt.name]}<td class=l>${answer(overview, doubt)}<td class=l>${openAt(overview, doubt.name)}<td>${formatCount(zones)}${bytesCell(bytes, unit)}`,
      )}<tfoot><tr><th scope=row colspan=5>All open doubts answered as plain${bytesCell(doubtsAll, unit)}</table>`,
  )}${both.length > 0 && markup`<p>Some free more together than one by one: ${joined(both, '; ')}.</p>`}<p class=n>Accepted: the price stays in memory on someone's word. Settled as plain: it has been freed on someone's word. To answer one: <code>keepset plan --settle order=plain</code>, or <code>settle:</code> in the template.</p>`;
};

/** What the person at the machines needs first. */
export const technicianSection = (overview: Overview): Html =>
  markup`<section id=technician aria-labelledby="technician-h"><h2 id=technician-h>For the technician</h2><h3>Machines</h3>${machines(overview)}${roomSection(overview)}<h3>What frees most</h3>${actions(overview)}<h3>Doubts by price</h3>${doubts(overview)}</section>`;
