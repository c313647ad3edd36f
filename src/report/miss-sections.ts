import type { Check, Miss } from '../keep/check/check.ts';
import { formatCount, plural } from './format.ts';
import type { Look } from './look.ts';
import { loadWords, missBlock } from './miss-block.ts';
import { groupMisses } from './miss-groups.ts';
import { loadOf } from './miss-loads.ts';
import { nameInText } from './name-list.ts';
import { paragraph } from './paragraph.ts';

/** Blocks for one instrument: more nobody works through by hand. */
const mostBlocks = 12;

const section = (
  misses: readonly [Miss, ...Miss[]],
  check: Check,
  look: Look,
): readonly string[] => {
  const { colors, width } = look;
  const [{ instrument, machine }] = misses;
  const groups = groupMisses(misses);
  const shown = look.details === true ? groups : groups.slice(0, mostBlocks);
  const rest = groups.slice(shown.length).flatMap((group) => group.misses).length;
  const where = machine === 'default' ? '' : ` on machine ${nameInText(machine, look)}`;
  const zones = `${plural(misses.length, 'zone')} ${misses.length === 1 ? 'is' : 'are'} missing`;
  return [
    ...paragraph(
      [
        {
          text: `${nameInText(instrument, look)}${where}:`,
          paint: (text) => colors.bold(colors.cyan(text)),
        },
        `${zones}, ${loadWords(loadOf(misses, check))} to load again`,
      ],
      width,
    ),
    ...shown.flatMap((group, i) => ['', ...missBlock(group, check, i + 1, look)]),
    ...(rest === 0
      ? []
      : [
          '',
          ...paragraph(
            [
              `And ${formatCount(rest)} more ${rest === 1 ? 'zone' : 'zones'}:`,
              '--verbose shows them too, and --format csv has a row for each.',
            ],
            width,
          ),
        ]),
  ];
};

/** What is missing, a section for each instrument in the order of the keep file. */
export const missSections = (check: Check, look: Look): readonly (readonly string[])[] => {
  const byInstrument = new Map<string, [Miss, ...Miss[]]>();
  for (const miss of check.misses) {
    const own = byInstrument.get(miss.instrument);
    if (own === undefined) byInstrument.set(miss.instrument, [miss]);
    else own.push(miss);
  }
  return [...byInstrument.values()].map((misses) => section(misses, check, look));
};
