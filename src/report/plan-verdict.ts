import type { Plan } from '../keep/plan.ts';
import { formatBytes, formatCount, formatDuration, formatShare, plural } from './format.ts';
import type { Look } from './look.ts';
import { machineFit } from './machine-fit.ts';
import { nameList } from './name-list.ts';
import { paragraph, type Paragraph, type Part } from './paragraph.ts';

const kept = ({ total: { zones, zonesKept, bytes } }: Plan, { colors }: Look): Paragraph => {
  const bold = (text: string): Part => ({ text, paint: colors.bold });
  if (zones === 0) return [bold('There are no zones to keep.')];
  if (zonesKept === zones) {
    return [
      bold(
        `Keep all ${plural(zones, 'zone')}: ${formatBytes(bytes.kept)}; nothing can be unloaded.`,
      ),
    ];
  }
  const share = formatShare(bytes.saved, bytes.full);
  return [
    bold(`Keep ${formatCount(zonesKept)} of ${plural(zones, 'zone')}:`),
    bold(`${formatBytes(bytes.kept)} of ${formatBytes(bytes.full)};`),
    {
      text: `${formatBytes(bytes.saved)} saved${share === null ? '' : ` (${share})`}.`,
      paint: (text) => colors.bold(colors.green(text)),
    },
  ];
};

const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0);

const basis = ({ cues }: Plan): Paragraph => {
  const cueCount = plural(cues.length, 'cue');
  const parts = plural(
    sum(cues, (cue) => cue.parts),
    'part',
  );
  const notes = plural(
    sum(cues, (cue) => cue.notes),
    'note',
  );
  const length = formatDuration(sum(cues, (cue) => cue.seconds));
  return [`From ${cueCount}, ${parts} and ${notes}, ${length} of music.`];
};

const usedMachines = ({ machines, instruments }: Plan): Plan['machines'] =>
  machines.filter(({ id }) => instruments.some(({ machine }) => machine === id));

/** How much of the template the cues use. */
const setup = ({ instruments }: Plan): Paragraph => {
  const needed = instruments.filter(({ zonesKept }) => zonesKept > 0);
  const all = plural(instruments.length, 'instrument');
  const copies = sum(instruments, (one) => one.copies.length);
  const machines = new Set(needed.map(({ machine }) => machine)).size;
  const verb = needed.length === 1 ? 'stays' : 'stay';
  return [
    needed.length === instruments.length
      ? `${all} ${verb},`
      : `${formatCount(needed.length)} of ${all} ${verb},`,
    `on ${plural(machines, 'machine')}; the cues drive ${plural(copies, 'copy', 'copies')}.`,
  ];
};

/** Tracks that no route takes: what they play is missing from the plan. */
const unmapped = ({ findings, settings }: Plan, look: Look): readonly Paragraph[] => {
  const found = findings.flatMap((one) => (one.code === 'part-unmapped' ? [one.args] : []));
  if (found.length === 0) return [];
  const tracks = [...new Set(found.flatMap((one) => one.tracks))].map((track) => track ?? '');
  const notes = sum(found, (one) => one.notes);
  return [
    [
      {
        text: `! No route takes ${plural(tracks.length, 'track')}: ${nameList(tracks, look)}.`,
        paint: look.colors.yellow,
      },
      `What ${plural(notes, 'note')} of ${tracks.length === 1 ? 'it' : 'them'} need is not in this plan.`,
      ...(settings.allowUnmapped ? ['They were let pass on your word.'] : []),
    ],
  ];
};

/** What was not read: never left for the small print. */
const unread = ({ cues, settings }: Plan, look: Look): readonly Paragraph[] => {
  const { colors } = look;
  const inState = (state: Plan['cues'][number]['state']): readonly string[] =>
    cues.filter((cue) => cue.state === state).map(({ id }) => id);
  const damaged = inState('damaged');
  const unreadable = inState('unreadable');
  const lines: Paragraph[] = [];
  if (damaged.length > 0) {
    lines.push([
      { text: `! Damaged: ${nameList(damaged, look)}.`, paint: colors.yellow },
      'What could not be read counts as needed; export again before anything is unloaded.',
    ]);
  }
  if (unreadable.length > 0) {
    lines.push([
      { text: `! Not readable: ${nameList(unreadable, look)}.`, paint: colors.red },
      'What is needed there is unknown; do not unload anything on the strength of this plan.',
    ]);
  }
  if (settings.without.length > 0) {
    lines.push([
      {
        text: `! Left out on request: ${nameList(settings.without, look)}.`,
        paint: colors.yellow,
      },
      'What these cues need is not in this plan.',
    ]);
  }
  return lines;
};

/**
 * The answer first: what stays, what it saves, what it rests on and what is missing.
 *
 * @param isTemplate there are machines to fit, and routes that may take no track
 */
export const planVerdict = (plan: Plan, isTemplate: boolean, look: Look): readonly string[] =>
  [
    kept(plan, look),
    ...(isTemplate ? usedMachines(plan).map((machine) => machineFit(machine, look)) : []),
    basis(plan),
    ...(isTemplate ? [setup(plan)] : []),
    ...unmapped(plan, look),
    ...unread(plan, look),
  ].flatMap((each) => paragraph(each, look.width));
