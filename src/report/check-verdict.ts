import type { Check } from '../keep/check/check.ts';
import { isPlain } from '../keep/check/is-plain.ts';
import { formatBytes, formatCount, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Paragraph, type Part } from './paragraph.ts';

/** Cues that are named in the first line. */
const mostCues = 3;

/** Cues that ask for something missing, in the order of the reel. */
const askingCues = ({ misses, proof }: Check): readonly string[] => {
  const asking = new Set(misses.flatMap(({ cues }) => Object.keys(cues)));
  const known = proof.cues.map(({ id }) => id).filter((id) => asking.has(id));
  return [...new Set([...known, ...asking])];
};

const who = (cues: readonly string[], look: Look): string => {
  if (cues.length > mostCues) return `${formatCount(cues.length)} cues`;
  const names = cues.map((cue) => nameInText(cue, look));
  return names.length < 2
    ? (names[0] ?? 'something')
    : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
};

const missing = (check: Check, look: Look): readonly Paragraph[] => {
  const { misses, total, open } = check;
  const { colors } = look;
  const strong = (text: string): Part => ({ text, paint: (t) => colors.bold(colors.red(t)) });
  const cues = askingCues(check);
  const doubtful = misses.filter((miss) => !isPlain(miss)).length;
  const allInDoubt = doubtful === misses.length;
  const need = allInDoubt ? 'may need' : cues.length > 1 ? 'need' : 'needs';
  const [verb, them] = total.misses === 1 ? ['was', 'it'] : ['were', 'them'];
  const gone =
    check.loaded === null
      ? `${verb} dropped`
      : `${total.misses === 1 ? 'is' : 'are'} not loaded now`;
  const load = total.bytes === 0 ? '' : ` (${formatBytes(total.bytes)} to load again)`;
  const doubts = allInDoubt
    ? `${total.misses === 1 ? 'The zone is' : 'All of the zones are'} in doubt: the files do not tell enough.`
    : doubtful === 0
      ? ''
      : `Of the zones ${formatCount(doubtful)} ${doubtful === 1 ? 'is' : 'are'} in doubt.`;
  const asking = [
    ...(total.notes === 0
      ? []
      : [
          `${plural(total.notes, 'note')} ${total.notes === 1 ? 'asks' : 'ask'} for ${them}${total.doubtfulNotes === 0 ? '' : `, and ${formatCount(total.doubtfulNotes)} more through a doubt`}.`,
        ]),
    ...(doubts === '' ? [] : [doubts]),
  ];
  return [
    [
      strong(
        `MISSING: ${who(cues, look)} ${need} ${plural(total.misses, 'zone')} that ${gone}${load}.`,
      ),
    ],
    ...(asking.length === 0 ? [] : [asking]),
    ...(open.length === 0
      ? []
      : [
          [
            {
              text: '! More may be missing: not everything could be compared.',
              paint: colors.yellow,
            },
          ],
        ]),
  ];
};

const open = ({ open: reasons, loaded }: Check, { colors }: Look): readonly Paragraph[] => [
  [
    {
      text: `NOT PROVED: nothing that ${loaded === null ? 'was dropped' : 'is not loaded'} is asked for as far as can be seen, but ${reasons.length === 1 ? 'one thing stands' : `${plural(reasons.length, 'thing')} stand`} against a proof.`,
      paint: (text) => colors.bold(colors.yellow(text)),
    },
  ],
];

const proved = ({ loaded }: Check, { colors }: Look): readonly Paragraph[] => [
  [
    {
      text: `PROVED: no cue needs anything that ${loaded === null ? 'was dropped' : 'is not loaded now'}.`,
      paint: (text) => colors.bold(colors.green(text)),
    },
  ],
];

/** The answer first, in words that need no colour. */
export const checkVerdict = (check: Check, look: Look): readonly string[] => {
  const lines =
    check.verdict === 'missing'
      ? missing(check, look)
      : check.verdict === 'not-proved'
        ? open(check, look)
        : proved(check, look);
  return lines.flatMap((line) => paragraph(line, look.width));
};
