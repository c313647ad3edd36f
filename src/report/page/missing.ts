import type { OverviewMiss } from '../../overview/overview-proof.ts';
import type { Overview } from '../../overview/overview.ts';
import { missSaid, moreMisses, mostMisses } from '../said/misses.ts';
import { stepsSaid } from '../said/missed-steps.ts';
import { capital } from '../said/said.ts';
import { markup, type Html } from './html.ts';
import { named } from './names.ts';
import { pageLook } from './room.ts';
import { saidHtml } from './said-html.ts';
import { scrollBox } from './scroll-box.ts';

const columns = ['What is missing', 'Asked for by', 'First at', 'Ways out'] as const;

/** The map of an instrument tells the rest of it; one that the plan does not know has none. */
const instrumentLink = ({ instruments }: Overview, id: string): Html => {
  const place = instruments.findIndex((one) => one.id === id);
  return place < 0 ? named(id) : markup`<a href="#i${place}">${named(id)}</a>`;
};

const lines = (all: readonly Html[]): Html =>
  markup`<ul>${all.map((one) => markup`<li>${one}`)}</ul>`;

const row = (overview: Overview, miss: OverviewMiss): Html => {
  const { of, zones, notes, places, doubt, ways } = missSaid(miss, pageLook(overview.middleC));
  const steps = stepsSaid(overview, miss.steps);
  const all = [
    ...ways.map((way) => saidHtml(capital(way))),
    ...(steps === null ? [] : [markup`Do not do ${saidHtml(steps)}`]),
  ];
  return markup`<tr id="miss${overview.proof.misses.indexOf(miss) + 1}"><th scope=row><b>${instrumentLink(overview, miss.instrument)}</b>${saidHtml(of)}: ${saidHtml(zones)}<td class=l>${lines([saidHtml(notes), ...(doubt === null ? [] : [saidHtml(capital(doubt))])])}<td class=l>${lines(places.map(saidHtml))}<td class=l>${lines(all)}`;
};

const group = (
  overview: Overview,
  title: string | null,
  misses: readonly OverviewMiss[],
): Html | null =>
  misses.length === 0
    ? null
    : markup`<tbody>${title !== null && markup`<tr class=i><th scope=rowgroup colspan=4>${title}`}${misses.map((miss) => row(overview, miss))}`;

/** What is missing: what notes ask for as they stand, then what only a doubt asks for. */
export const missingTable = (overview: Overview): Html | null => {
  const listed = overview.proof.misses.slice(0, mostMisses);
  if (listed.length === 0) return null;
  const certain = listed.filter(({ zones }) => zones > 0);
  const inDoubt = listed.filter(({ zones }) => zones === 0);
  const more = moreMisses(overview);
  return markup`<h2 id=missing>What is missing, where</h2>${scrollBox(
    'What is missing',
    markup`<table class="t miss"><thead><tr>${columns.map((title) => markup`<th scope=col class=l>${title}`)}${group(overview, null, certain)}${group(overview, 'Only in doubt', inDoubt)}</table>`,
  )}${more !== null && markup`<p>${saidHtml(more)}</p>`}`;
};

/** Where the verdict tells of what a step unloads. */
export const missLink = ({ proof }: Overview, step: number): string => {
  const place = proof.misses.slice(0, mostMisses).findIndex(({ steps }) => steps.includes(step));
  return place < 0 ? '#missing' : `#miss${String(place + 1)}`;
};
