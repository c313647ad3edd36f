import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import { legendSaid, lostSaid, notLoadedSaid, promiseSaid } from '../said/composer.ts';
import { playingByCopy, type CopyPlaying } from '../said/playing-by-copy.ts';
import { joined, markup, type Html } from './html.ts';
import { listed, named } from './names.ts';
import { inRanges } from './numbers.ts';
import { dynamicsReduced } from './reduced.ts';
import { saidHtml } from './said-html.ts';
import { changeWords, playersOf } from '../said/who-plays.ts';
import { playingWords } from '../said/playing-words.ts';

/** Where limits can not be said in words: a map tells them, which is on paper only with all the rest. */
const seeMap = (index: number): Html =>
  markup` <span class=see>(<a href="#i${index}">see its map</a>)</span><span class=paper>(map: print everything)</span>`;

/** A copy that differs from others of its instrument has its own lines. */
const entries = (instrument: OverviewInstrument, index: number, middleC: number): readonly Html[] =>
  playingByCopy(instrument).map((playing) => entry(instrument, playing, index, middleC));

/** One line where the same may be written of all that is left; else a line for each of them. */
const entry = (
  instrument: OverviewInstrument,
  { copies, articulations }: CopyPlaying,
  index: number,
  middleC: number,
): Html => {
  const { lines, gone } = playingWords(articulations, middleC);
  const isAlone = instrument.articulations.length === 1;
  const inLines = lines.length > 1 || lines.some(({ texts }) => texts.length > 1);
  let isToldOfMap = false;
  const said = (text: string): Html => {
    const isFirst = !isToldOfMap && text.includes('in part');
    isToldOfMap ||= isFirst;
    return markup`${inRanges(text)}${isFirst && seeMap(index)}`;
  };
  const parts = lines.flatMap(({ names, texts }): readonly Html[] => {
    const what = texts.map(said);
    if (isAlone) return what;
    return [markup`${listed(names)}${inLines ? ': ' : '; '}${joined(what, '; ')}`];
  });
  const lost = lostSaid(instrument, copies, gone).map((one) => markup`<i>${saidHtml(one)}</i>`);
  const all = [...parts, ...lost];
  const players = copies ?? playersOf(instrument);
  const name = markup`<a href="#i${index}">${named(instrument.id)}</a>${players.length > 0 && markup` (${listed(players, 6)})`}:`;
  const told = inLines
    ? all.map((part, i) => markup`<span>${part}${i < all.length - 1 ? ';' : '.'}</span>`)
    : markup` ${joined(all, '; ')}.`;
  const changes = instrument.changes.map(
    (change) =>
      markup`<span class=n>For ${listed(change.rules, 4)}: ${inRanges(changeWords(change))}.</span>`,
  );
  return markup`<p data-instrument="${printable(instrument.id)}">${name}${told}${changes}</p>`;
};

/** What can still be written, one line an instrument. */
export const composerSection = (overview: Overview): Html => {
  const { instruments, middleC } = overview;
  const missing = notLoadedSaid(overview);
  const isAny = instruments.some(({ zonesKept }) => zonesKept > 0);
  return markup`<section id=composer aria-labelledby="composer-h"><h2 id=composer-h>For the composer</h2><p>${isAny && 'What can still be written, for each instrument. '}${saidHtml(promiseSaid(overview))}</p>${dynamicsReduced(overview)}<div class=c>${instruments.map((one, i) => one.zonesKept > 0 && entries(one, i, middleC))}</div>${missing !== null && markup`<p><b>${missing.title}</b> ${saidHtml(missing.said)}</p>`}<p>If you need more, ask the technician: what was unloaded is still in the full template. After each change export the cue and run <code>keepset check</code> on it; it names the bars that ask for something missing, and ways out.</p><p class=n>${saidHtml(legendSaid(overview))}</p></section>`;
};
