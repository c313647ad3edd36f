import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import { tableUnit, type ByteUnit } from '../format.ts';
import { bytesCell } from './figures.ts';
import { markup, type Html } from './html.ts';
import { shown } from './names.ts';
import { bytesIn } from './numbers.ts';
import { plannedOnly } from './planned-only.ts';
import { scrollBox } from './scroll-box.ts';

/** Tones of a cell. */
export const classes = 6;

/**
 * Which tone a figure has, 1 to 6: each is twice the one before, and 6 reaches to the largest.
 *
 * @example toneOf(512, 1024) // 5
 */
export const toneOf = (bytes: number, largest: number): number => {
  if (bytes <= 0 || largest <= 0) return 1;
  const halvings = Math.floor(Math.log2(largest / bytes));
  return Math.max(1, classes - Math.max(0, halvings));
};

const cell = (bytes: number | undefined, largest: number, unit: ByteUnit): Html =>
  bytes === undefined
    ? markup`<td>`
    : markup`<td class=c${toneOf(bytes, largest)} data-bytes=${bytes}>${bytesIn(bytes, unit)}`;

const legend = (largest: number, unit: ByteUnit): Html =>
  markup`<ul class=e aria-label="Legend of the tones">${Array.from({ length: classes }, (_, i) => {
    const from = largest / 2 ** (classes - i);
    return markup`<li><span class="y c${i + 1}" >${i === 0 ? `to ${bytesIn(from * 2, unit)}` : `from ${bytesIn(from, unit)}`}</span>`;
  })}</ul>`;

/** What each cue needs of each instrument; cues in running order from left to right. */
export const matrixSection = (overview: Overview): Html => {
  const { cues, instruments, total } = overview;
  const needs = cues.map((cue) => new Map(cue.needs));
  const rows = instruments
    .map((instrument, i) => ({ instrument, i }))
    .filter(({ i }) => needs.some((own) => own.has(i)));
  const largest = Math.max(0, ...needs.flatMap((own) => [...own.values()]));
  const unit = tableUnit(largest);
  const table = markup`<table class=x><thead><tr><th scope=col class=l>Instrument${cues.map(({ id }) => markup`<th scope=col>${shown(id)}`)}<th scope=col>All cues<tbody>${rows.map(
    ({ instrument, i }) =>
      markup`<tr data-instrument="${printable(instrument.id)}"><th scope=row>${shown(instrument.id)}${needs.map((own) => cell(own.get(i), largest, unit))}${bytesCell(instrument.bytes.kept, unit)}`,
  )}<tfoot><tr><th scope=row>All machines${cues.map(({ bytes }) => bytesCell(bytes, unit))}${bytesCell(total.bytes.kept, unit)}</table>`;
  return markup`<section id=matrix aria-labelledby="matrix-h"><h2 id=matrix-h>Cues and instruments</h2><p class=n>What each cue needs of each instrument, ${unit.name}. Empty: nothing. The last column is what stays for all cues. The last line is what a cue needs on all machines, where samples that are shared count once.${plannedOnly(overview)}</p>${rows.length === 0 ? markup`<p>No cue needs anything.</p>` : markup`${legend(largest, unit)}${scrollBox('Table of cues and instruments', table)}`}</section>`;
};
