import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import { keyLabel } from '../../terms/key.ts';
import { lostOf } from '../said/lost.ts';
import { playingByCopy, type CopyPlaying } from '../said/playing-by-copy.ts';
import { dynamicNames, eighth, rangeText } from '../said/dynamics.ts';
import { joined, markup, type Html } from './html.ts';
import { listed, named } from './names.ts';
import { inRanges } from './numbers.ts';
import { dynamicsReduced } from './reduced.ts';
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
    const isFirst = !isToldOfMap && text.includes('in part, by');
    isToldOfMap ||= isFirst;
    return markup`${inRanges(text)}${isFirst && seeMap(index)}`;
  };
  const parts = lines.flatMap(({ names, texts }): readonly Html[] => {
    const what = texts.map(said);
    if (isAlone) return what;
    return [markup`${listed(names)}${inLines ? ': ' : '; '}${joined(what, '; ')}`];
  });
  const { unasked, gone: missing } = lostOf(instrument, copies, gone);
  const lost = [
    ...(unasked.length > 0
      ? [markup`<i>${listed(unasked)}: loaded, but no track leads to it</i>`]
      : []),
    ...(missing.length > 0 ? [markup`<i>${listed(missing)}: gone</i>`] : []),
  ];
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

/** What the limits below mean. */
const promise = markup`<p>What can still be written, for each instrument. A note within these limits starts nothing but what stays loaded; where its end may ask for a release sound that is gone, the line says so. A controller has to be within them when the note begins and as long as it sounds, and some time before: a leap just ahead of a note is a doubt to <code>keepset check</code>. What a controller starts by itself is told by the maps below. In brackets: the tracks that play it.</p>`;

/** What can still be written, one line an instrument. */
export const composerSection = (overview: Overview): Html => {
  const { instruments, middleC } = overview;
  const gone = instruments.filter(({ zonesKept }) => zonesKept === 0).map(({ id }) => id);
  const eighths = dynamicNames.map((name, i) => `${name} ${rangeText(eighth(i))}`).join(', ');
  return markup`<section id=composer aria-labelledby="composer-h"><h2 id=composer-h>For the composer</h2>${gone.length === instruments.length ? markup`<p>Nothing stays loaded, so nothing can be written.</p>` : promise}${dynamicsReduced(overview)}<div class=c>${instruments.map((one, i) => one.zonesKept > 0 && entries(one, i, middleC))}</div>${gone.length > 0 && markup`<p><b>Not loaded at all:</b> ${listed(gone, 60)}.</p>`}<p>If you need more, ask the technician: what was unloaded is still in the full template. After each change export the cue and run <code>keepset check</code> on it; it names the bars that ask for something missing, and ways out.</p><p class=n>Middle C is ${keyLabel(60, middleC)}. Dynamics are even eighths of the values 1 to 127, which is common practice and no standard: ${inRanges(eighths)}. Only dynamics that are there in full are named; the exact values stand in brackets, as they reach the instrument. Limits joined by "together with" hold while all of them are kept at once. In part: which notes start only what stays depends on all that is named together.</p></section>`;
};
