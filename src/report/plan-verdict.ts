import type { Plan } from '../keep/plan.ts';
import { shownName } from './cell.ts';
import { formatBytes, formatCount, formatDuration, formatShare, plural } from './format.ts';
import type { Look } from './look.ts';
import { paragraph, type Paragraph, type Part } from './paragraph.ts';

/** More names than this are only counted. */
const mostNames = 8;

const names = (ids: readonly string[], look: Look): string => {
  const shown = ids.slice(0, mostNames).map((id) => shownName(id, look));
  const rest = ids.length - shown.length;
  return shown.join(', ') + (rest > 0 ? ` and ${formatCount(rest)} more` : '');
};

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

const basis = ({ cues }: Plan): Paragraph => {
  const sum = (of: (cue: Plan['cues'][number]) => number): number =>
    cues.reduce((total, cue) => total + of(cue), 0);
  const cueCount = plural(cues.length, 'cue');
  const parts = plural(
    sum((cue) => cue.parts),
    'part',
  );
  const notes = plural(
    sum((cue) => cue.notes),
    'note',
  );
  const length = formatDuration(sum((cue) => cue.seconds));
  return [`From ${cueCount}, ${parts} and ${notes}, ${length} of music.`];
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
      { text: `! Damaged: ${names(damaged, look)}.`, paint: colors.yellow },
      'What could not be read counts as needed; export again before anything is unloaded.',
    ]);
  }
  if (unreadable.length > 0) {
    lines.push([
      { text: `! Not readable: ${names(unreadable, look)}.`, paint: colors.red },
      'What is needed there is unknown; do not unload anything on the strength of this plan.',
    ]);
  }
  if (settings.without.length > 0) {
    lines.push([
      { text: `! Left out on request: ${names(settings.without, look)}.`, paint: colors.yellow },
      'What these cues need is not in this plan.',
    ]);
  }
  return lines;
};

/** The answer first: what stays, what it saves, what it rests on and what is missing. */
export const planVerdict = (plan: Plan, look: Look): readonly string[] =>
  [kept(plan, look), basis(plan), ...unread(plan, look)].flatMap((each) =>
    paragraph(each, look.width),
  );
