import type { Check, CheckedCue, CheckedInstrument } from '../keep/check/check.ts';
import { bullets } from './bullets.ts';
import { whereOf } from './error-text.ts';
import { formatCount, plural } from './format.ts';
import type { Look } from './look.ts';
import { messageOf } from './messages.ts';
import { doubtWords } from './messages/doubts.ts';
import { nameInText, nameList } from './name-list.ts';
import type { Paragraph } from './paragraph.ts';

/** Cues in one list: what has changed is named further than what has not. */
const mostChanged = 24;

/** Findings of one kind that are written out. */
const mostAlike = 3;

const idsOf = (cues: readonly CheckedCue[]): readonly string[] => cues.map(({ id }) => id);

const cueLines = (
  { proof: { cues, notes, absent, leftOut, accepted } }: Check,
  look: Look,
): readonly Paragraph[] => {
  const { red, yellow } = look.colors;
  const changed = (
    change: CheckedCue['change'],
    label: string,
    most?: number,
  ): readonly string[] => {
    const own = idsOf(cues.filter((cue) => cue.change === change));
    return own.length === 0 ? [] : [`${label}: ${nameList(own, look, most)}.`];
  };
  const inState = (state: CheckedCue['state']): string =>
    nameList(idsOf(cues.filter((cue) => cue.state === state)), look, mostChanged);
  const [damaged, unreadable] = [inState('damaged'), inState('unreadable')];
  return [
    [
      `${plural(cues.length, 'cue')} with ${plural(notes, 'note')}.`,
      ...changed('changed', 'Changed since the plan', mostChanged),
      ...changed('new', 'New since the plan', mostChanged),
      ...changed('same', 'As they were in the plan'),
    ],
    ...(damaged === '' ? [] : [[{ text: `! Damaged: ${damaged}.`, paint: yellow }]]),
    ...(unreadable === '' ? [] : [[{ text: `! Not readable: ${unreadable}.`, paint: red }]]),
    ...(leftOut.length === 0
      ? []
      : [[{ text: `! Left out: ${nameList(leftOut, look, mostChanged)}.`, paint: yellow }]]),
    ...(accepted.length === 0
      ? []
      : [
          [
            `On your word: whole, whatever they look like: ${nameList(accepted, look, mostChanged)}.`,
          ],
        ]),
    ...(absent.length === 0
      ? []
      : [
          [
            {
              text: `! Not checked: ${nameList(absent, look, mostChanged)}.`,
              paint: yellow,
            },
            `The plan was made from ${absent.length === 1 ? 'it' : 'them'} too: what was found then holds only if ${absent.length === 1 ? 'it is' : 'they are'} as before.`,
          ],
        ]),
  ];
};

const instrumentLines = ({ proof }: Check, look: Look): readonly Paragraph[] => {
  const { instruments, template } = proof;
  const inState = (state: CheckedInstrument['state']): readonly string[] =>
    instruments.filter((one) => one.state === state).map(({ id }) => id);
  const [same, changed, added] = [inState('same'), inState('changed'), inState('added')];
  const lines: Paragraph[] = [];
  if (same.length > 0) {
    const verb = same.length === 1 ? 'is' : 'are';
    const which = same.length === 1 ? 'Its definition' : 'Their definitions';
    lines.push([
      `${plural(same.length, 'instrument')}: ${nameList(same, look)}. ${which} ${verb} as in the plan.`,
    ]);
  }
  const warned = (names: readonly string[], text: string): void => {
    if (names.length === 0) return;
    lines.push([
      { text: `! ${text}: ${nameList(names, look, mostChanged)}.`, paint: look.colors.yellow },
    ]);
  };
  warned(changed, 'Another definition than in the plan, not compared');
  warned(added, 'Not in the plan');
  if (template === 'same') lines.push(['Routes and players are those of the plan.']);
  if (template === 'changed') {
    lines.push([{ text: '! The template is not that of the plan.', paint: look.colors.yellow }]);
  }
  return lines;
};

/** What holds because the user said so. */
const settledLines = (
  { proof: { settled, instruments } }: Check,
  look: Look,
): readonly Paragraph[] =>
  settled.map(({ doubt, answer, instruments: ids }) => {
    const where = ids.length === instruments.length ? 'everywhere' : `for ${nameList(ids, look)}`;
    const what = answer === 'plain' ? 'settled as plain' : 'accepted';
    return [`On your word: ${doubtWords[doubt]} (doubt ${doubt}) is ${what} ${where}.`];
  });

/** A list that is half done leaves more loaded than the plan keeps, or less. */
const loadedLines = ({ loaded }: Check, look: Look): readonly Paragraph[] => {
  if (loaded === null) return [];
  const { path, done, open } = loaded;
  return [
    [
      `Against what is loaded now by ${nameInText(path, look)}: ${formatCount(done)} of ${plural(done + open, 'action')} ${done === 1 ? 'is' : 'are'} done.`,
    ],
  ];
};

/** What the verdict covers: cues, notes, instruments, and what holds on the user's word. */
export const checkProof = (check: Check, look: Look): readonly string[] => {
  const { path, sha256 } = check.keep;
  return bullets(
    check.verdict === 'proved' ? 'What is proved' : 'What was checked',
    [
      [`Against ${nameInText(path, look)} (sha256 ${sha256.slice(0, 12)}).`],
      ...loadedLines(check, look),
      ...cueLines(check, look),
      ...instrumentLines(check, look),
      ...settledLines(check, look),
    ],
    look,
  );
};

/** What stands against a proof, in sentences; nothing where nothing does. */
export const againstProof = ({ open, findings }: Check, look: Look): readonly string[] => {
  const sentences = open.flatMap((code): readonly Paragraph[] => {
    const own = findings.filter((found) => found.code === code);
    const shown = look.details === true ? own : own.slice(0, mostAlike);
    const rest = own.length - shown.length;
    return [
      ...shown.map((found): Paragraph => {
        const { message, hint } = messageOf(found);
        const where = whereOf(found);
        return [...(where === null ? [] : [`${where}:`]), message, ...(hint === '' ? [] : [hint])];
      }),
      ...(own.length === 0 ? [[`${code}.`]] : []),
      ...(rest === 0 ? [] : [[`And ${formatCount(rest)} more of this kind (${code}).`]]),
    ];
  });
  return bullets('What stands against a proof', sentences, look);
};
