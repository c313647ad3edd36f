import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import type { Overview } from '../../overview/overview.ts';
import { keyLabel } from '../../terms/key.ts';
import { item, led } from '../indent.ts';
import type { Look } from '../look.ts';
import { nameInText, nameList } from '../name-list.ts';
import { playingByCopy, type CopyPlaying } from '../said/playing-by-copy.ts';
import { playingWords } from '../said/playing-words.ts';
import { paragraph } from '../paragraph.ts';
import { lostOf } from '../said/lost.ts';
import { changeWords, playersOf } from '../said/who-plays.ts';

/** Names in one line; more are counted. */
const mostNames = 12;
const mostPlayers = 6;
const mostGone = 60;

/** What can still be written, instrument by instrument; a copy that differs has lines of its own. */
export const composerLines = (
  { instruments, middleC }: Overview,
  look: Look,
): readonly string[] => {
  const { bold } = look.colors;
  const stays = instruments.filter(({ zonesKept }) => zonesKept > 0);
  const gone = instruments.filter(({ zonesKept }) => zonesKept === 0).map(({ id }) => id);
  const sentence = (text: string): readonly string[] => paragraph([text], look.width);
  return [
    bold('For the composer: what can still be written'),
    '',
    ...sentence(
      stays.length === 0
        ? 'Nothing stays loaded, so nothing can be written.'
        : 'A note within these limits starts nothing but what stays loaded; where its end may ask for a release sound that is gone, the line says so. A controller has to be within them when the note begins, some time before, and as long as it sounds. In brackets: the tracks that play it.',
    ),
    ...(stays.length === 0 ? [] : ['']),
    ...stays.flatMap((one) =>
      playingByCopy(one).flatMap((playing) => entry(one, playing, middleC, look)),
    ),
    '',
    ...(gone.length === 0
      ? []
      : paragraph(
          [{ text: 'Not loaded at all:', paint: bold }, `${nameList(gone, look, mostGone)}.`],
          look.width,
        )),
    ...sentence(
      `Middle C is ${keyLabel(60, middleC)}. Dynamics are even eighths of the values 1 to 127; the values in brackets are exact. Limits joined by "together with" hold while all of them are kept at once. In part: what is safe depends on all that is named together.`,
    ),
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
  const lost = lostOf(instrument, copies, gone);
  const all = [
    ...lines.flatMap(({ names, texts }): readonly string[] =>
      isAlone ? texts : [`${named(names)}${isLong ? ': ' : '; '}${texts.join('; ')}`],
    ),
    ...(lost.unasked.length > 0
      ? [`${named(lost.unasked)}: loaded, but no track leads to it`]
      : []),
    ...(lost.gone.length > 0 ? [`${named(lost.gone)}: gone`] : []),
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
