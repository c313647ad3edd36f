import { printable } from '../../terms/printable.ts';
import type { DoubtName } from '../../terms/doubt.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewMachine } from '../../overview/overview-machines.ts';
import type { OverviewAction, OverviewStep } from '../../overview/overview-steps.ts';
import type { PlanDoubt } from '../../keep/plan.ts';
import { tableUnit } from '../format.ts';
import { doubtWords } from '../messages/doubts.ts';
import { unknownSize } from '../worklist-words.ts';
import { amount, bytesCell, bytesCellOr } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import { instrumentName, listed, machineName, named, shown } from './names.ts';
import { formatBytes, formatCount, plural } from './numbers.ts';
import { roomSection } from './room.ts';
import { scrollBox } from './scroll-box.ts';
import { hasOnlyOne, keptPieces, unitPieces } from './step-words.ts';

/** Whether it fits, in words; judged on the high figure. */
export const fitsWords = ({ budget, bytes, fits }: OverviewMachine): string => {
  if (budget === null || fits === null) return 'no budget given';
  if (fits) return `yes, ${formatBytes(budget - bytes.high)} to spare`;
  const missing = formatBytes(bytes.high - budget);
  return bytes.kept > budget ? `no, ${missing} too much` : `perhaps not, up to ${missing} too much`;
};

const machines = (overview: Overview): Html => {
  const all = overview.machines;
  const unit = tableUnit(
    Math.max(...all.map(({ bytes, budget }) => Math.max(bytes.full, budget ?? 0)), 0),
  );
  const peak = ({ peak: most }: OverviewMachine): Html =>
    most === null ? markup`<td>` : bytesCell(most.bytes, unit);
  return scrollBox(
    'Machines',
    markup`<table class=t><caption>Memory of each machine, ${unit.name}. Now: everything loaded. After: all that goes is unloaded.</caption><thead><tr><th scope=col class=l>Machine<th scope=col>Now<th scope=col>After<th scope=col>Saved<th scope=col>Budget<th scope=col>At least<th scope=col>At most<th scope=col class=l>Fits<th scope=col>Largest cue<th scope=col>Steps<tbody>${all.map(
      (machine) => {
        const { id, bytes, budget, steps } = machine;
        return markup`<tr data-machine="${printable(id)}"><th scope=row>${shown(id)}${bytesCell(bytes.full, unit)}${bytesCell(bytes.kept, unit)}${bytesCell(bytes.full - bytes.kept, unit)}${bytesCellOr(budget, unit, 'none')}${bytesCell(bytes.low, unit)}${bytesCell(bytes.high, unit)}<td class=l>${fitsWords(machine)}${peak(machine)}<td>${formatCount(steps)}`;
      },
    )}</table>`,
  );
};

const stepOf = (overview: Overview, { number, machine }: OverviewAction): OverviewStep | null =>
  overview.worklist
    .find(({ id }) => id === machineName(overview, machine))
    ?.actions.find((action) => action.number === number) ?? null;

const actions = (overview: Overview): Html => {
  const most = overview.actions;
  if (most.length === 0) return markup`<p>Nothing to unload.</p>`;
  const unit = tableUnit(Math.max(...most.map(({ frees }) => frees)));
  return scrollBox(
    'Steps that free most',
    markup`<table class=t><caption>The ${most.length === 1 ? 'step' : plural(most.length, 'step')} that free${most.length === 1 ? 's' : ''} most, ${unit.name}.</caption><thead><tr><th scope=col>Step<th scope=col class=l>Machine<th scope=col class=l>Instrument<th scope=col class=l>What to unload<th scope=col class=l>What stays<th scope=col>Frees<tbody>${most.map(
      (action) => {
        const step = stepOf(overview, action);
        const copy = step?.copy ?? null;
        const frees =
          step !== null && step.unknownSamples > 0
            ? markup`<td>${unknownSize}`
            : bytesCell(action.frees, unit);
        return markup`<tr><td><a href="#w${action.number}">${action.number}</a><td class=l>${shown(machineName(overview, action.machine))}<th scope=row>${shown(instrumentName(overview, action.instrument))}${copy !== null && markup`, copy ${named(copy)}`}<td class=l>${step === null ? null : unitPieces(step, hasOnlyOne(overview, step.instrument))}<td class=l>${step === null ? null : keptPieces(step, overview.middleC)}${frees}`;
      },
    )}</table>`,
  );
};

const turn = { open: 0, accept: 1, plain: 2 } as const;
const answers = { open: 'open', accept: 'accepted', plain: 'settled as plain' } as const;

/** Open ones first, the dearest on top. */
const byPrice = (a: PlanDoubt, b: PlanDoubt): number =>
  turn[a.settled ?? 'open'] - turn[b.settled ?? 'open'] || b.bytes - a.bytes || b.zones - a.zones;

const placesOf = ({ doubtsAt, instruments }: Overview, name: DoubtName): Html => {
  const at = doubtsAt.find((one) => one.name === name)?.instruments ?? [];
  return listed(
    at.map((instrument) => instruments[instrument]?.id ?? ''),
    4,
  );
};

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
        ({ name, settled, zones, bytes }) =>
          markup`<tr><th scope=row>${name}<td class=l>${doubtWords[name]}<td class=l>${answers[settled ?? 'open']}<td class=l>${placesOf(overview, name)}<td>${formatCount(zones)}${bytesCell(bytes, unit)}`,
      )}<tfoot><tr><th scope=row colspan=5>All open doubts answered as plain${bytesCell(doubtsAll, unit)}</table>`,
  )}${both.length > 0 && markup`<p>Some free more together than one by one: ${joined(both, '; ')}.</p>`}<p class=n>Accepted: the price stays in memory on someone's word. Settled as plain: it has been freed on someone's word. To answer one: <code>keepset plan --settle order=plain</code>, or <code>settle:</code> in the template.</p>`;
};

/** What the person at the machines needs first. */
export const technicianSection = (overview: Overview): Html =>
  markup`<section id=technician aria-labelledby="technician-h"><h2 id=technician-h>For the technician</h2><h3>Machines</h3>${machines(overview)}${roomSection(overview)}<h3>What gives most</h3>${actions(overview)}<h3>Doubts by price</h3>${doubts(overview)}</section>`;
