import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import type { Overview } from '../../overview/overview.ts';
import { item, led } from '../indent.ts';
import type { Look } from '../look.ts';
import { nameInText, nameList } from '../name-list.ts';
import { legendSaid, lostSaid, notLoadedSaid, promiseSaid } from '../said/composer.ts';
import { playingByCopy, type CopyPlaying } from '../said/playing-by-copy.ts';
import { playingWords } from '../said/playing-words.ts';
import { paragraph } from '../paragraph.ts';
import type { Said } from '../said/said.ts';
import { changeWords, playersOf } from '../said/who-plays.ts';
import { saidText } from './said-text.ts';

/** Names in one line; more are counted. */
const mostNames = 12;
const mostPlayers = 6;

/** What can still be written, instrument by instrument; a copy that differs has lines of its own. */
export const composerLines = (overview: Overview, look: Look): readonly string[] => {
  const { instruments, middleC } = overview;
  const { bold } = look.colors;
  const stays = instruments.filter(({ zonesKept }) => zonesKept > 0);
  const missing = notLoadedSaid(overview);
  const sentence = (of: Said): readonly string[] => paragraph([saidText(of, look)], look.width);
  return [
    bold('For the composer: what can still be written'),
    '',
    ...sentence(promiseSaid(overview)),
    ...(stays.length === 0 ? [] : ['']),
    ...stays.flatMap((one) =>
      playingByCopy(one).flatMap((playing) => entry(one, playing, middleC, look)),
    ),
    '',
    ...(missing === null
      ? []
      : paragraph(
          [{ text: missing.title, paint: bold }, saidText(missing.said, look)],
          look.width,
        )),
    ...sentence(legendSaid(overview)),
  ];
};

/** On one line where the same may be written of all that is left; else a line for each of them. */
const entry = (
  instrument: OverviewInstrument,
  { copies, articulations }: CopyPlaying,
  middleC: number,
  look: Look,
): readonly string[] => {
  const { lines, gone } = playingWords(articulations, middleC);
  const isAlone = instrument.articulations.length === 1;
  const isLong = lines.length > 1 || lines.some(({ texts }) => texts.length > 1);
  const named = (names: readonly string[]): string => nameList(names, look, mostNames);
  const all = [
    ...lines.flatMap(({ names, texts }): readonly string[] =>
      isAlone ? texts : [`${named(names)}${isLong ? ': ' : '; '}${texts.join('; ')}`],
    ),
    ...lostSaid(instrument, copies, gone).map((one) => saidText(one, look)),
  ];
  const players = copies ?? playersOf(instrument);
  const of = players.length === 0 ? '' : ` (${nameList(players, look, mostPlayers)})`;
  const changes = instrument.changes.flatMap((change) =>
    item([`For ${nameList(change.rules, look, mostPlayers)}: ${changeWords(change)}.`], look),
  );
  const head = {
    text: `${nameInText(instrument.id, look)}${of}:`,
    paint: look.colors.bold,
  };
  return isLong
    ? [...led('- ', [head], look), ...all.flatMap((text) => item([text], look)), ...changes]
    : [...led('- ', [head, `${all.join('; ')}.`], look), ...changes];
};
