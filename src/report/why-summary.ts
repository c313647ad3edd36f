import type { Why, WhyDropped, WhyKept, WhyZone } from '../keep/why/why.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { fixed, name, span, words, type Cell } from './cell.ts';
import { bytesIn, formatBytes, formatCount, plural, tableUnit, type ByteUnit } from './format.ts';
import type { Look } from './look.ts';
import { nameList } from './name-list.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown, type Column } from './table.ts';

/** More rows than this nobody reads through. */
const mostRows = 12;

/** Zones of one articulation and layer that are there for one reason. */
interface Group {
  readonly articulations: readonly string[];
  readonly velocities: WhyZone['velocities'];
  readonly controllers: WhyZone['controllers'];
  readonly reason: string;
  zones: number;
  bytes: number;
  /** Of the zone with the most: a note that reaches many zones is still one note. */
  notes: number;
}

const grouped = <Zone extends WhyKept | WhyDropped>(
  zones: readonly Zone[],
  reasonOf: (zone: Zone) => string,
  notesOf: (zone: Zone) => number,
): readonly Group[] => {
  const groups = new Map<string, Group>();
  for (const zone of zones) {
    const { articulationNames: articulations, velocities, controllers } = zone;
    const reason = reasonOf(zone);
    const text = JSON.stringify([articulations, velocities, controllers, reason]);
    let group = groups.get(text);
    if (group === undefined) {
      group = { articulations, velocities, controllers, reason, zones: 0, bytes: 0, notes: 0 };
      groups.set(text, group);
    }
    group.zones += 1;
    group.bytes += zone.bytes;
    group.notes = Math.max(group.notes, notesOf(zone));
  }
  return [...groups.values()].sort(
    (a, b) =>
      b.bytes - a.bytes ||
      b.zones - a.zones ||
      byCodePoint(a.articulations.join(), b.articulations.join()),
  );
};

interface SummaryColumn {
  readonly column: Column;
  readonly cell: (group: Group) => Cell;
}

const columnsOf = (
  groups: readonly Group[],
  isKept: boolean,
  unit: ByteUnit,
  look: Look,
): readonly SummaryColumn[] => {
  const all: readonly (SummaryColumn & { readonly used?: boolean })[] = [
    {
      column: { title: ['Articulation'], align: 'left', min: 10 },
      cell: ({ articulations }) => {
        const rest = articulations.length - 1;
        return name(`${articulations[0] ?? '-'}${rest > 0 ? ` +${String(rest)}` : ''}`, look);
      },
    },
    {
      column: { title: ['Velocity'], align: 'left', leaveOut: 0 },
      cell: ({ velocities }) => span(velocities),
      used: groups.some(({ velocities }) => velocities !== null),
    },
    {
      column: { title: ['Controllers'], align: 'left', leaveOut: 1 },
      cell: ({ controllers }) =>
        fixed(
          controllers.length === 0
            ? '-'
            : controllers
                .map(
                  ({ number, range: [lo, hi] }) =>
                    `CC${String(number)} ${String(lo)}-${String(hi)}`,
                )
                .join(', '),
        ),
      used: groups.some(({ controllers }) => controllers.length > 0),
    },
    {
      column: { title: ['Reason'], align: 'left', min: 8 },
      cell: ({ reason }) => words(reason),
      used: isKept,
    },
    {
      column: { title: ['Most notes', 'on a zone'], align: 'right', leaveOut: 2 },
      cell: ({ notes }) => fixed(notes === 0 ? '-' : formatCount(notes)),
      used: isKept,
    },
    {
      column: { title: ['Zones'], align: 'right', leaveOut: 3 },
      cell: ({ zones }) => fixed(formatCount(zones)),
    },
    {
      column: { title: ['Samples', unit.name], align: 'right' },
      cell: ({ bytes }) => fixed(bytesIn(bytes, unit)),
    },
  ];
  return all.filter(({ used = true }) => used);
};

const table = (
  heading: string,
  groups: readonly Group[],
  isKept: boolean,
  unit: ByteUnit,
  look: Look,
): readonly string[] => {
  if (groups.length === 0) return [];
  const shown = look.details === true ? groups : groups.slice(0, mostRows);
  const columns = columnsOf(groups, isKept, unit, look);
  const { text, leftOut } = layOut(
    columns.map(({ column }) => column),
    shown.map((group) => columns.map(({ cell }) => cell(group))),
    look,
  );
  const rest = groups.length - shown.length;
  return [
    look.colors.bold(heading),
    '',
    text,
    ...(rest === 0
      ? []
      : paragraph([`${plural(rest, 'lighter row')} more with --verbose.`], look.width)),
    ...notShown(leftOut, look),
  ];
};

const sum = (zones: readonly { readonly bytes: number }[]): number =>
  zones.reduce((all, { bytes }) => all + bytes, 0);

/** How much stays for which reason, the most first, in a sentence. */
const byReason = (kept: readonly WhyKept[], look: Look): readonly string[] => {
  const reasons = new Map<string, WhyKept[]>();
  for (const zone of kept) {
    const text = zone.reasons.join(' + ');
    const own = reasons.get(text);
    if (own === undefined) reasons.set(text, [zone]);
    else own.push(zone);
  }
  const parts = [...reasons]
    .sort(([a, x], [b, y]) => sum(y) - sum(x) || y.length - x.length || byCodePoint(a, b))
    .map(([reason, own]) => `${reason} ${plural(own.length, 'zone')} (${formatBytes(sum(own))})`);
  return parts.length === 0
    ? []
    : paragraph(
        [{ text: 'Why it stays:', paint: look.colors.bold }, `${parts.join(', ')}.`],
        look.width,
      );
};

/** Dropped articulations of which nothing stays: what a person looks for first among what went. */
const goneWhole = ({ kept, dropped }: Why, look: Look): readonly string[] => {
  const live = new Set(kept.flatMap(({ articulationNames }) => articulationNames));
  const gone = [...new Set(dropped.flatMap(({ articulationNames }) => articulationNames))].filter(
    (one) => !live.has(one),
  );
  return gone.length === 0
    ? []
    : paragraph([`Nothing stays of ${nameList(gone, look)}.`], look.width);
};

/** An instrument as a whole: what stays and what went, by articulation and layer, the heaviest first. */
export const whySummary = (why: Why, look: Look): readonly (readonly string[])[] => {
  const { kept, dropped } = why;
  const stay = grouped(
    kept,
    ({ reasons }) => reasons.join(' + '),
    ({ notes }) => notes,
  );
  const went = grouped(
    dropped,
    () => '',
    () => 0,
  );
  // Both tables in one unit, so that they can be compared.
  const unit = tableUnit(Math.max(0, ...[...stay, ...went].map(({ bytes }) => bytes)));
  return [
    [...byReason(kept, look), ...goneWhole(why, look)],
    table('What stays, the heaviest first', stay, true, unit, look),
    table('What goes, the heaviest first', went, false, unit, look),
    paragraph(
      [
        'Sizes are those of single zones in one copy; what several zones share counts in each.',
        'To ask about some of them: --articulation, --key, --velocity, --sample or --zone.',
      ],
      look.width,
    ),
  ].filter((lines) => lines.length > 0);
};
