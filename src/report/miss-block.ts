import type { Check } from '../keep/check/check.ts';
import { isPlain } from '../keep/check/is-plain.ts';
import { formatBytes, plural } from './format.ts';
import { indent, item, led } from './indent.ts';
import type { Look } from './look.ts';
import { doubtWords } from './messages/doubts.ts';
import { whoAsks } from './miss-asks.ts';
import { zoneRanges, type MissGroup } from './miss-groups.ts';
import { broughtBack, loadOf, type Load } from './miss-loads.ts';
import { nameInText, nameList } from './name-list.ts';
import { barsWords, wayWords } from './ways-out.ts';

/** Samples, and tracks to record, that are named in one block. */
const mostSamples = 3;
const mostTracks = 6;

/** What loading takes, as part of a sentence. */
export const loadWords = ({ bytes, exact }: Load): string =>
  `${exact ? '' : 'at most '}${formatBytes(bytes)}`;

const unique = <T>(items: readonly T[]): readonly T[] => [...new Set(items)];

const heading = ({ shared, misses }: MissGroup, check: Check, number: number, look: Look) => {
  const { bold } = look.colors;
  const articulations = unique(misses.flatMap((miss) => miss.articulations));
  const name = articulations.length === 0 ? 'No articulation' : nameList(articulations, look, 3);
  const copy = shared.copy === null ? '' : `, copy ${nameInText(shared.copy, look)}`;
  const zones = misses.length === 1 ? 'one zone' : plural(misses.length, 'zone');
  const load = shared.silent ? 'without samples' : loadWords(loadOf(misses, check));
  return led(
    `${String(number)}. `,
    [{ text: `${name}${copy}:`, paint: bold }, `${zones}, ${load}`],
    look,
  );
};

/** What it is: samples, and the zones by name or by number. */
const contents = ({ misses }: MissGroup, look: Look): readonly string[] => {
  const samples = unique(misses.flatMap((miss) => miss.samples));
  const keys = misses.flatMap(({ key }) => (key === null ? [] : [key]));
  const numbers = zoneRanges(misses)
    .slice(0, 8)
    .map(([lo, hi]) => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`));
  const rest = zoneRanges(misses).length > numbers.length ? ' and more' : '';
  const zones =
    keys.length === misses.length
      ? nameList(keys, look, mostSamples)
      : `${misses.length === 1 ? 'zone' : 'zones'} ${numbers.join(', ')}${rest}`;
  return led(
    indent,
    samples.length === 0 || nameList(samples, look, mostSamples) === zones
      ? [zones]
      : [nameList(samples, look, mostSamples), `(${zones})`],
    look,
  );
};

const cautions = ({ shared }: MissGroup, look: Look): readonly string[] => [
  ...(shared.isPreset
    ? led(indent, ['Its samples stay for other presets, but this preset was dropped.'], look)
    : []),
  ...(shared.silent
    ? led(indent, ['It makes no sound of its own, but stops others: without it they go on.'], look)
    : []),
  ...(isPlain(shared)
    ? []
    : led(
        indent,
        [
          `Only in doubt: it depends on ${shared.doubts
            .map((set) => set.map((doubt) => `${doubtWords[doubt]} (${doubt})`).join(' and '))
            .join(', or on ')}.`,
        ],
        look,
      )),
];

/** Whether the machine holds it, in words that follow what loading takes. */
const fitWords = ({ shared, misses }: MissGroup, check: Check, look: Look): string => {
  const machine = `machine ${nameInText(shared.machine, look)}`;
  const all = check.machines.find(({ id }) => id === shared.machine)?.fits ?? null;
  if (all === true) return `${machine} still fits`;
  if (misses.some(({ fits }) => fits === false)) return `${machine} then DOES NOT FIT any more`;
  if (all === null || misses.some(({ fits }) => fits === null)) {
    return `no memory budget is given for ${machine}`;
  }
  return loadOf(misses, check).units === 1
    ? `${machine} fits with this, but not with all that is missing`
    : `${machine} fits with any one of them, but not with all that is missing`;
};

/** What comes back with it although other notes ask for it. */
const together = ({ misses }: MissGroup, check: Check): string => {
  const others = broughtBack(misses, check);
  if (others === 0) return '';
  const zones = others === 1 ? 'one more zone' : plural(others, 'more zone');
  return ` (it brings ${zones} of these back: its player loads them together)`;
};

const waysOut = (group: MissGroup, check: Check, look: Look): readonly string[] => {
  const { shared, misses, ways, bars } = group;
  const load = loadOf(misses, check);
  const shown = look.details === true ? bars : bars.slice(0, mostTracks);
  const rest = bars.length - shown.length;
  return [
    ...led(indent, [{ text: 'Ways out', paint: look.colors.bold }], look),
    ...item(
      [
        shared.silent && load.bytes === 0
          ? 'load it again: it needs no memory'
          : `load it again${together(group, check)}: ${loadWords(load)}; ${fitWords(group, check, look)}`,
      ],
      look,
    ),
    ...ways.flatMap((way) => item([wayWords(way, look)], look)),
    ...(shown.length === 0
      ? []
      : item(
          [
            `print as audio: ${shown.map((each) => barsWords(each, look)).join('; ')}${rest > 0 ? `; and ${plural(rest, 'more track')}` : ''}`,
          ],
          look,
        )),
  ];
};

/** Missing zones that are one matter: what they are, who asks, and what can be done. */
export const missBlock = (
  group: MissGroup,
  check: Check,
  number: number,
  look: Look,
): readonly string[] => [
  ...heading(group, check, number, look),
  ...contents(group, look),
  ...whoAsks(group.shared, look, group.notesAtMost),
  ...cautions(group, look),
  ...waysOut(group, check, look),
];
