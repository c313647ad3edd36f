import { formatBytes, formatShare, plural } from './format.ts';
import type { BeforeAfter, Trim } from '../trim/trim.ts';
import type { Look } from './look.ts';
import { nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';

/** Cues in one list: what holds on a person's word is named further than the rest. */
const mostAccepted = 24;

export const hasErrors = ({ findings }: Trim): boolean =>
  findings.some(({ severity }) => severity === 'error');

/** There is something to write, or to have written. */
export const writesAny = ({ instruments }: Trim): boolean =>
  instruments.some(({ outcome }) => outcome === 'trimmed');

/** Something stands in the folder, and the whole score was played through it without a miss. */
export const isProved = (trim: Trim): boolean =>
  !trim.dryRun && trim.proof !== null && writesAny(trim) && !hasErrors(trim);

/** Something holds only because the user said so. */
export const isOnWord = ({ accepted: { damage, partial, unmapped } }: Trim): boolean =>
  damage.length > 0 || partial.length > 0 || unmapped;

const answer = (trim: Trim, { colors }: Look): Paragraph => {
  const say = (text: string, color?: (text: string) => string): Paragraph => [
    { text, paint: (words) => colors.bold(color === undefined ? words : color(words)) },
  ];
  if (trim.dryRun) {
    if (hasErrors(trim)) {
      return say(
        'Nothing was written: this is what trim would write, but for the errors that were found.',
        colors.yellow,
      );
    }
    return writesAny(trim)
      ? say('Nothing was written: this is what trim would write.')
      : say('Nothing was written, and there is nothing to write.');
  }
  if (!writesAny(trim)) return say('Nothing was written: there is nothing to write.');
  if (trim.proof === null || hasErrors(trim)) {
    return say(
      '! NOT PROVED: keep using the full instruments, and nothing that was written.',
      colors.red,
    );
  }
  const { cues, notes } = trim.proof;
  const played = `${plural(cues, 'cue')}, ${plural(notes, 'note')} ${notes === 1 ? 'finds' : 'find'}`;
  const it = notes === 1 ? 'it needs' : 'they need';
  return isOnWord(trim)
    ? say(
        `Written on your word, and played: ${played} all that is known of what ${it}.`,
        colors.yellow,
      )
    : say(`Written and played: ${played} all ${it}.`, colors.green);
};

const instead = ({ before, after }: BeforeAfter): string => {
  const share = formatShare(before - after, before);
  const saved =
    before > after
      ? `, ${formatBytes(before - after)} saved${share === null ? '' : ` (${share})`}`
      : '';
  return `${formatBytes(after)} instead of ${formatBytes(before)}${saved}`;
};

/** What holds only because the user said so. */
const accepted = (trim: Trim, look: Look): readonly Paragraph[] => {
  const { damage, partial, unmapped } = trim.accepted;
  const warn = (text: string) => ({ text, paint: look.colors.yellow });
  return [
    ...(damage.length === 0
      ? []
      : [
          [
            warn(`! Damaged, accepted on your word: ${nameList(damage, look, mostAccepted)}.`),
            'What could not be read there could not be played: nothing is proved of it.',
          ],
        ]),
    ...(partial.length === 0
      ? []
      : [
          [
            warn(
              `! Whole on your word, whatever they look like: ${nameList(partial, look, mostAccepted)}.`,
            ),
          ],
        ]),
    ...(unmapped
      ? [
          [
            warn('! Tracks that no rule takes were let pass on your word.'),
            'What they need may be missing.',
          ],
        ]
      : []),
  ];
};

/** The answer first: what was written and proved, what it saves, what holds on a person's word. */
export const trimVerdict = (trim: Trim, look: Look): readonly string[] => {
  const { disk, memory } = trim.total;
  const sizes: Paragraph = [`On disk ${instead(disk)}.`, `In memory about ${instead(memory)}.`];
  const isWorth = writesAny(trim) && (trim.dryRun || isProved(trim));
  return [answer(trim, look), ...(isWorth ? [sizes] : []), ...accepted(trim, look)].flatMap(
    (each) => paragraph(each, look.width),
  );
};
