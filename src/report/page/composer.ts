import { printable } from '../../terms/printable.ts';
import type { Overview, OverviewInstrument } from '../../overview/overview.ts';
import { keyLabel } from '../../terms/key.ts';
import { dynamicNames, eighth, rangeText } from './dynamics.ts';
import { markup, joined, type Html } from './html.ts';
import { listed, named } from './names.ts';
import { playingWords } from './words.ts';

const line = (instrument: OverviewInstrument, index: number, middleC: number): Html => {
  const { lines, gone } = playingWords(instrument.articulations, middleC);
  const alone = instrument.articulations.length === 1;
  const said = lines.map(({ names, text }, i) => {
    const what = alone ? null : markup`${listed(names)}; `;
    return markup`${i > 0 ? ' ' : null}${what}${text}.`;
  });
  const lost = gone.length > 0 && markup` <i>${listed(gone)}: gone.</i>`;
  return markup`<p data-instrument="${printable(instrument.id)}"><a href="#i${index}">${named(instrument.id)}</a>: ${said}${lost}</p>`;
};

/** What can still be written, one line an instrument. */
export const composerSection = (overview: Overview): Html => {
  const { instruments, middleC } = overview;
  const gone = instruments.filter(({ zonesKept }) => zonesKept === 0).map(({ id }) => id);
  const eighths = joined(
    dynamicNames.map((name, i) => `${name} ${rangeText(eighth(i))}`),
    ', ',
  );
  return markup`<section id=composer aria-labelledby="composer-h"><h2 id=composer-h>For the composer</h2><p>What can still be written, for each instrument. Anything within these limits plays from what stays loaded.</p><div class=c>${instruments.map((one, i) => one.zonesKept > 0 && line(one, i, middleC))}</div>${gone.length > 0 && markup`<p><b>Not loaded at all:</b> ${listed(gone, 60)}.</p>`}<p>If you need more, ask the technician: what was unloaded is still in the full template. After each change export the cue and run <code>keepset check</code> on it; it names the bars that ask for something missing, and ways out.</p><p class=n>Middle C is ${keyLabel(60, middleC)}. Dynamics are even eighths of the values 1 to 127, which is common practice and no standard: ${eighths}. Only dynamics that are there in full are named; the exact values stand in brackets, as they reach the instrument.</p></section>`;
};
