import type { Plan, PlanRare, RareUnit } from '../keep/plan.ts';
import { fixed, name, words, type Cell } from './cell.ts';
import { bytesIn, formatBytes, formatCount, plural, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown } from './table.ts';
import { placeText } from './why-words.ts';

/** More rows than this are summed up, unless details are asked for. */
const mostRows = 12;

/** What few notes reach, the dearest first, to decide on; nothing where it was not asked for. */
export const rareTable = (plan: Plan, look: Look): readonly string[] => {
  const { rare } = plan;
  if (rare === null) return [];
  const { colors, width } = look;
  const { units, fewerThan, bytes } = rare;
  if (units.length === 0) {
    return paragraph(
      [
        `Rare: nothing that could go by itself is reached by fewer than ${plural(fewerThan, 'note')}.`,
      ],
      width,
    );
  }
  const what = units.length === 1 ? '1 part that' : `${formatCount(units.length)} parts that`;
  const headline = `Rare: ${what} fewer than ${plural(fewerThan, 'note')} ${fewerThan === 1 ? 'reaches' : 'reach'}; without ${units.length === 1 ? 'it' : 'them'} ${formatBytes(bytes)} less.`;
  return [
    ...paragraph([{ text: headline, paint: colors.bold }], width),
    '',
    ...layOutUnits(plan, rare, look),
    ...advice(plan, units[0]!).flatMap((line) => paragraph([line], width)),
  ];
};

const articulationsOf = (
  plan: Plan,
  { instrument, articulations }: Pick<RareUnit, 'instrument' | 'articulations'>,
): readonly string[] => {
  const all = plan.instruments.find(({ id }) => id === instrument)?.articulations ?? [];
  return articulations.map((index) => all[index]?.name ?? '');
};

/** Parts that the same notes reach, as round robins are: one decision, and one row. */
interface Gathered extends Omit<RareUnit, 'zones'> {
  readonly zones: number;
  readonly parts: number;
}

const gather = (units: readonly RareUnit[]): readonly Gathered[] => {
  const rows = new Map<string, Gathered>();
  for (const unit of units) {
    const { instrument, copy, articulations, notes, cues, witnesses } = unit;
    const key = JSON.stringify([instrument, copy, articulations, notes, cues, witnesses]);
    const { zones = 0, parts = 0, bytes = 0 } = rows.get(key) ?? {};
    rows.set(key, {
      ...unit,
      zones: zones + unit.zones.length,
      parts: parts + 1,
      bytes: bytes + unit.bytes,
    });
  }
  return [...rows.values()].sort((a, b) => b.bytes - a.bytes);
};

const layOutUnits = (plan: Plan, { units }: PlanRare, look: Look): readonly string[] => {
  const gathered = gather(units);
  const shown = look.details === true ? gathered : gathered.slice(0, mostRows);
  const unit = tableUnit(Math.max(...gathered.map(({ bytes }) => bytes)));
  const rows = shown.map((one): readonly Cell[] => {
    const names = articulationsOf(plan, one);
    const others = names.length > 1 ? ` +${String(names.length - 1)}` : '';
    return [
      name(one.copy === null ? one.instrument : `${one.instrument} (${one.copy})`, look),
      name(`${names[0] ?? ''}${others}`, look),
      fixed(formatCount(one.zones)),
      fixed(formatCount(one.notes)),
      places(one, look),
      fixed(bytesIn(one.bytes, unit), one.bytes > 0 ? look.colors.green : undefined),
    ];
  });
  const { text, leftOut } = layOut(
    [
      { title: ['Instrument'], align: 'left', min: 10 },
      { title: ['Articulation'], align: 'left', min: 12 },
      { title: ['Zones'], align: 'right', leaveOut: 1 },
      { title: ['Notes'], align: 'right' },
      { title: ['Where'], align: 'left', min: 20 },
      { title: ['Frees', unit.name], align: 'right' },
    ],
    rows,
    look,
  );
  const rest = gathered.slice(shown.length).reduce((sum, { parts }) => sum + parts, 0);
  return [
    text,
    ...(rest > 0
      ? paragraph(
          [`And ${formatCount(rest)} more that free less each: --verbose shows all of them.`],
          look.width,
        )
      : []),
    ...notShown(leftOut, look),
  ];
};

/** The first places, one under the other. */
const places = ({ witnesses, notes }: Gathered, look: Look): Cell => {
  const rest = notes - witnesses.length;
  const more = rest > 0 && witnesses.length > 0 ? [`and ${formatCount(rest)} more`] : [];
  const within = (width: number): readonly string[] => {
    const narrow = Number.isFinite(width) ? { ...look, width } : look;
    return [...witnesses.map((place) => placeText(place, narrow)), ...more];
  };
  return {
    whole: within(Infinity).join('\n'),
    fit: (width) =>
      within(width)
        .map((text) => words(text).fit(width))
        .join('\n'),
  };
};

const advice = (plan: Plan, first: RareUnit): readonly string[] => {
  const [articulation = ''] = articulationsOf(plan, first);
  const both = `${first.instrument}/${articulation}`;
  // To be copied into a shell: a name that could mean something there is not written out.
  const pin = /^[\w .:#/+-]{1,60}$/.test(both) ? `--pin "${both}"` : '--pin';
  return [
    'Nothing of this is dropped: decide for each. What has to stay for good: pin it ' +
      `(${pin}, or pins: in the template). What may go: print those bars as audio and mark the ` +
      'track printed, or change the notes, and plan again.',
    'Each figure is what goes if that part alone does; parts may share samples.',
  ];
};
