import type { ReelMachine, ReelMemory } from '../keep/reel/reel-memory.ts';
import { formatBytes, plural } from './format.ts';
import type { Look } from './look.ts';
import { machineFit } from './machine-fit.ts';
import { figureWords, loadTime } from './memory-words.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';

/**
 * The answer first: what the reel needs, what a cue needs at the most, and what fits. Groups that were
 * not asked for are a way out, and come behind what does not fit.
 */
export const memoryVerdict = (memory: ReelMemory, look: Look): readonly string[] =>
  [
    needed(memory, look),
    ...(memory.settings.inGroups ? inGroups(memory, look) : []),
    ...usedMachines(memory).map((machine) => fit(machine, memory, look)),
    ...(memory.settings.inGroups ? [] : inGroups(memory, look)),
    ...tried(memory, look),
    ...unread(memory, look),
  ].flatMap((each) => paragraph(each, look.width));

/** Machines of which the cues need something; the only one there is in any case. */
export const usedMachines = ({ machines }: ReelMemory): readonly ReelMachine[] =>
  machines.length === 1 ? machines : machines.filter(({ high }) => high > 0);

/** The cues are loaded together in several groups, by the user's word. */
export const isInGroups = ({ settings, groups }: ReelMemory): boolean =>
  settings.inGroups && groups !== null && groups.groups.length > 1;

const needed = ({ cues, total }: ReelMemory, look: Look): Paragraph => {
  const { bold } = look.colors;
  if (cues.length === 0) return [{ text: 'There is no cue to load anything for.', paint: bold }];
  if (total.high === 0) {
    const [they, need] = cues.length === 1 ? ['The cue', 'needs'] : ['The cues', 'need'];
    return [
      { text: `${they} ${need} nothing`, paint: bold },
      `of the ${formatBytes(total.full)} that there are.`,
    ];
  }
  const [only] = cues;
  const what = cues.length === 1 ? `Cue ${nameInText(only!.id, look)}` : 'The reel';
  const of = cues.length === 1 ? '' : ` of ${plural(cues.length, 'cue')}`;
  const most =
    cues.length === 1 || total.peak === null
      ? []
      : [
          `One cue needs ${formatBytes(total.peak.bytes)} at the most (${nameInText(total.peak.cue, look)}).`,
        ];
  return [
    {
      text: `${what}${of} needs ${figureWords(total)} of ${formatBytes(total.full)}${cues.length === 1 ? '' : ' at once'}.`,
      paint: bold,
    },
    ...most,
  ];
};

/** Into how many groups it goes, and what changing from one to the next costs. */
const inGroups = ({ groups, cues: reel }: ReelMemory, look: Look): readonly Paragraph[] => {
  if (groups === null || groups.groups.length === 0) return [];
  const count = groups.groups.length;
  const { alone, load, seconds } = groups;
  // Of a cue that is the only one, the machines say all.
  if (count === 1) {
    return reel.length > 1 && alone.length === 0
      ? [['One group: all cues can be loaded at once.']]
      : [];
  }
  const time = seconds === null ? '' : `, ${loadTime(seconds)}`;
  const changes = count === 2 ? 'the change' : `the ${plural(count - 1, 'change')}`;
  const cost = `${formatBytes(load)} to load at ${changes}${time}.`;
  if (alone.length === 0) {
    return [
      [
        { text: `The reel can be loaded in ${plural(count, 'group')}:`, paint: look.colors.green },
        cost,
      ],
    ];
  }
  const cues = [...new Set(alone.map(({ cue }) => cue))];
  return [
    [
      {
        text: `! Not even in groups: ${nameList(cues, look)} ${cues.length === 1 ? 'does' : 'do'} not fit alone.`,
        paint: look.colors.red,
      },
      count === cues.length
        ? `Each is loaded by itself; ${cost}`
        : `The rest goes into ${plural(count - cues.length, 'group')}; ${cost}`,
    ],
  ];
};

/** Of a machine what is loaded at once decides: all cues, or the group that needs most. */
const fit = (machine: ReelMachine, memory: ReelMemory, look: Look): Paragraph => {
  const { id, budget, full } = machine;
  const loads = isInGroups(memory)
    ? (memory.groups?.groups ?? []).flatMap(({ machines }) => machines.filter((m) => m.id === id))
    : [];
  const most = loads.toSorted((a, b) => b.high - a.high)[0] ?? machine;
  const { bytes, low, high, fits } = most;
  return machineFit({ id, budget, bytes: { full, kept: bytes, low, high }, fits }, look);
};

const tried = ({ settings }: ReelMemory, look: Look): readonly Paragraph[] => {
  const budgets = Object.entries(settings.budgets);
  if (budgets.length === 0) return [];
  const each = budgets.map(([id, budget]) => `${nameInText(id, look)} ${formatBytes(budget)}`);
  return [[`Budgets tried in place of the template's: ${each.join(', ')}.`]];
};

/** What was not read: never left for the small print. */
const unread = ({ cues, settings, findings }: ReelMemory, look: Look): readonly Paragraph[] => {
  const { colors } = look;
  const inState = (state: string): readonly string[] =>
    cues.filter((cue) => cue.state === state).map(({ id }) => id);
  const [damaged, unreadable] = [inState('damaged'), inState('unreadable')];
  const unmapped = new Set(
    findings.flatMap((one) => (one.code === 'part-unmapped' ? [one.args.cue] : [])),
  );
  const caution = (
    label: string,
    names: readonly string[],
    rest: string,
    paint = colors.yellow,
  ): readonly Paragraph[] =>
    names.length === 0 ? [] : [[{ text: `! ${label}: ${nameList(names, look)}.`, paint }, rest]];
  return [
    ...caution('Damaged', damaged, 'What could not be read counts as needed.'),
    ...caution(
      'Not readable',
      unreadable,
      'What is needed there is unknown: all that there is counts as needed.',
      colors.red,
    ),
    ...caution(
      'Left out on request',
      settings.without,
      'What these cues need is not in these figures.',
    ),
    ...caution(
      'Tracks without a route in',
      [...unmapped],
      'What they need is not in these figures.',
    ),
  ];
};
