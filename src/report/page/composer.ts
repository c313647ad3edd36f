import { printable } from '../../terms/printable.ts';
import type { Overview, OverviewInstrument } from '../../overview/overview.ts';
import { keyLabel } from '../../terms/key.ts';
import { dynamicNames, eighth, rangeText } from './dynamics.ts';
import { markup, type Html } from './html.ts';
import { listed, named } from './names.ts';
import { inRanges } from './numbers.ts';
import { dynamicsReduced } from './reduced.ts';
import { playingWords } from './words.ts';

const line = (instrument: OverviewInstrument, index: number, middleC: number): Html => {
  const { lines, gone } = playingWords(instrument.articulations, middleC);
  const alone = instrument.articulations.length === 1;
  const said = lines.map(({ names, text }, i) => {
    const what = alone ? null : markup`${listed(names)}; `;
    return markup`${i > 0 ? ' ' : null}${what}${inRanges(text)}.`;
  });
  const lost = gone.length > 0 && markup` <i>${listed(gone)}: gone.</i>`;
  return markup`<p data-instrument="${printable(instrument.id)}"><a href="#i${index}">${named(instrument.id)}</a>: ${said}${lost}</p>`;
};

/** What the limits below mean. */
const promise = markup`<p>What can still be written, for each instrument. A note within these limits starts nothing but what stays loaded. What its end may start (release samples), and what a controller starts by itself, is not told here; the maps below have them as rows of their own.</p>`;

/** What can still be written, one line an instrument. */
export const composerSection = (overview: Overview): Html => {
  const { instruments, middleC } = overview;
  const gone = instruments.filter(({ zonesKept }) => zonesKept === 0).map(({ id }) => id);
  const eighths = dynamicNames.map((name, i) => `${name} ${rangeText(eighth(i))}`).join(', ');
  return markup`<section id=composer aria-labelledby="composer-h"><h2 id=composer-h>For the composer</h2>${gone.length === instruments.length ? markup`<p>Nothing stays loaded, so nothing can be written.</p>` : promise}${dynamicsReduced(overview)}<div class=c>${instruments.map((one, i) => one.zonesKept > 0 && line(one, i, middleC))}</div>${gone.length > 0 && markup`<p><b>Not loaded at all:</b> ${listed(gone, 60)}.</p>`}<p>If you need more, ask the technician: what was unloaded is still in the full template. After each change export the cue and run <code>keepset check</code> on it; it names the bars that ask for something missing, and ways out.</p><p class=n>Middle C is ${keyLabel(60, middleC)}. Dynamics are even eighths of the values 1 to 127, which is common practice and no standard: ${inRanges(eighths)}. Only dynamics that are there in full are named; the exact values stand in brackets, as they reach the instrument.</p></section>`;
};
