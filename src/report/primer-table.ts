import type { Primer } from '../primer/primer.ts';
import { bullets } from './bullets.ts';
import { formatDuration, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { primerLacks, primerNotNeeded } from './primer-lacks.ts';
import { primerRows } from './primer-rows.ts';
import { shellWord } from './shell-word.ts';

/** What the user named. */
export interface PrimerNames {
  /** Where the primer was written. */
  readonly out: string;
  readonly keep: string;
  /** The template, where one was named. */
  readonly template?: string | undefined;
}

/** Excerpts, and tracks, that are listed unless all are asked for. */
const mostListed = 12;

/** A primer as a person goes on with it: how long it is, what it loads, what it does not, how to use it. */
export const primerTable = (primer: Primer, names: PrimerNames, look: Look): string => {
  const sections: readonly (readonly string[])[] = [
    verdict(primer, look),
    primerRows(primer, look),
    excerpts(primer, look),
    primerLacks(primer, look),
    primerNotNeeded(primer, look),
    chances(primer, look),
    tracks(primer, look),
    next(primer, names, look),
  ];
  const filled = sections.filter(({ length }) => length > 0);
  return `${filled.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};

const verdict = (primer: Primer, look: Look): readonly string[] => {
  const { seconds, reelSeconds, notes, base, accepted } = primer;
  const lacking = primer.notPrimed.filter(({ because }) => because !== 'tied').length;
  const { bold, green, yellow } = look.colors;
  const length = `${formatDuration(seconds)}, ${plural(notes, 'note')}; the reel has ${formatDuration(reelSeconds)}`;
  const onWord = [
    ...(accepted.damage.length === 0 ? [] : [`damaged cues (${nameList(accepted.damage, look)})`]),
    ...(accepted.partial.length === 0
      ? []
      : [`cues that look incomplete (${nameList(accepted.partial, look)})`]),
    ...(accepted.unmapped ? ['tracks that no rule takes'] : []),
  ];
  const answer: Paragraph =
    lacking === 0
      ? [
          {
            text: `It loads all that ${primer.notPrimed.length === 0 ? 'stays' : 'cues can ask for'}: ${length}.`,
            paint: (text) => bold(green(text)),
          },
        ]
      : [
          {
            text: `It loads all that stays but ${plural(lacking, 'zone')}: ${length}.`,
            paint: (text) => bold(yellow(text)),
          },
        ];
  return [
    answer,
    [
      'It was played through the template, and loads nothing else.',
      `Its tracks are those of cue ${nameInText(base.cue, look)}.`,
    ],
    ...(onWord.length === 0
      ? []
      : [
          [
            {
              text: `! Accepted on your word: ${onWord.join(', ')}. What they need may be missing.`,
              paint: yellow,
            },
          ],
        ]),
  ].flatMap((each) => paragraph(each, look.width));
};

const excerpts = ({ excerpts: all }: Primer, look: Look): readonly string[] => {
  const shown = look.details === true ? all : all.slice(0, mostListed);
  const rest = all.length - shown.length;
  return bullets(
    'Bars of the cues where notes were not enough',
    [
      ...shown.map(({ cue, bars: [from, to], at, instruments, zones }) => {
        const bars = from === to ? `bar ${String(from)}` : `bars ${String(from)}-${String(to)}`;
        return `At ${formatDuration(at)}: ${nameInText(cue, look)}, ${bars}, for ${plural(zones, 'zone')} of ${nameList(instruments, look)}.`;
      }),
      ...(rest > 0 ? [`${plural(rest, 'more excerpt')} with --verbose.`] : []),
    ].map((sentence) => [sentence]),
    look,
  );
};

const chances = ({ chances: all }: Primer, look: Look): readonly string[] =>
  bullets(
    'Left to chance',
    all.map(({ instrument, zones, plays, miss }) => [
      `${nameInText(instrument, look)}: the player picks among ${plural(zones, 'zone')} by chance. Each note is played ${plural(plays, 'time')}; the chance that the least likely is missed is ${chance(miss)}.`,
    ]),
    look,
  );

const chance = (miss: number): string =>
  miss < 0.001 ? 'below 1 in 1000' : `${(Math.ceil(miss * 1000) / 10).toFixed(1)} %`;

const tracks = ({ findings }: Primer, look: Look): readonly string[] => {
  const added = findings.flatMap((one) => (one.code === 'primer-track-added' ? [one.args] : []));
  if (added.length === 0) return [];
  const isNamed = ({ track }: { readonly track: string }): boolean => track.trim() !== '';
  const named = added.filter(isNamed).map(({ track }) => track);
  const others = added.filter((one) => !isNamed(one));
  const cues = [...new Set(others.map(({ cue }) => cue))];
  return bullets(
    'Tracks at the end that the export does not have',
    [
      ...(named.length === 0
        ? []
        : [
            [
              named.length === 1
                ? `${nameList(named, look)}: put it on the track of this name.`
                : `${nameList(named, look, mostListed)}: put them on the tracks of these names.`,
            ],
          ]),
      ...(others.length === 0
        ? []
        : [
            [
              `${plural(others.length, 'track')} without a name, as in ${cues.length === 1 ? 'cue' : 'cues'} ${nameList(cues, look, mostListed)}: put ${others.length === 1 ? 'it' : 'each'} where the track without a name of that cue belongs.`,
            ],
          ]),
    ],
    look,
  );
};

const next = (
  { machines }: Primer,
  { out, keep, template }: PrimerNames,
  look: Look,
): readonly string[] => {
  const named = template === undefined ? '' : ` --template ${shellWord(template)}`;
  const several = machines.length > 1 ? ' on every machine' : '';
  return bullets(
    'What to do next',
    [
      'Keep your full template safe under its own name. Turn the monitors off or down: the primer is no music.',
      `Set the players${several} so that no sample is loaded until it is played, import ${nameInText(out, look)} into the template, and play it once from beginning to end.`,
      'Compare what each player shows with the size in the table, which is an estimate. If it shows much more, something else was played too.',
      'Save the result under a new name.',
      `Whenever your sequencer has written the primer anew, check the file: keepset primer --keep ${shellWord(keep)}${named} --verify FILE.mid`,
    ].map((sentence) => [sentence]),
    look,
  );
};
