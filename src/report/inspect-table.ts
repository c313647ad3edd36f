import type { InspectedArticulation, Inspection, InstrumentKind } from '../keep/inspect.ts';
import { fixed, keys, name, shortened, type Cell } from './cell.ts';
import { bytesIn, formatBytes, formatCount, formatDuration, plural, tableUnit } from './format.ts';
import { aboutInspection } from './inspect-about.ts';
import { layersTable } from './inspect-layers.ts';
import { nounsOf } from './instrument-nouns.ts';
import { keyMapText } from './key-map-text.ts';
import { keySwitch } from './key-switch.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown, type Column } from './table.ts';

const kinds: Readonly<Record<InstrumentKind, string>> = {
  'soundfont bank': 'a SoundFont bank',
  'soundfont preset': 'one preset of a SoundFont bank',
  'sfz instrument': 'an SFZ instrument',
  'zone table': 'a zone table',
  outline: 'an outline',
};

/** More rates than this are a range. */
const mostRates = 4;

/** What the sound is stored as; nothing where that is not known. */
const format = ({ rates, widths, channels }: Inspection['instrument']): readonly string[] => {
  if (rates.length === 0) return [];
  const hertz =
    rates.length <= mostRates
      ? rates.map(formatCount).join(', ')
      : `${formatCount(Math.min(...rates))} to ${formatCount(Math.max(...rates))}`;
  return [
    `${hertz} Hz, ${widths.join(', ')} bytes a sample point, channels: ${channels.join(', ')}.`,
  ];
};

const heading = ({ instrument, articulations }: Inspection, look: Look): readonly string[] => {
  const { bold, cyan, dim } = look.colors;
  const { id, source, kind, zones, samples, bytes, seconds } = instrument;
  const { one, many } = nounsOf(instrument);
  const size = [
    plural(articulations.length, one, many),
    plural(zones, 'zone'),
    plural(samples, 'sample'),
    formatBytes(bytes),
    ...(seconds === null || samples === 0 ? [] : [`${formatDuration(seconds)} of sound`]),
  ];
  return [
    ...paragraph(
      [
        { text: nameInText(id, look), paint: (text) => bold(cyan(text)) },
        { text: `(${name(source, look).fit((look.width ?? Infinity) - 3)}),`, paint: dim },
        kinds[kind],
      ],
      look.width,
    ),
    ...paragraph([`${size.join(', ')}.`], look.width),
    ...format(instrument).flatMap((line) => paragraph([line], look.width)),
  ];
};

/** A column with what it shows of an articulation and of the whole; not made when `used` by none. */
interface InspectColumn {
  readonly column: Column;
  readonly cell: (articulation: InspectedArticulation) => Cell;
  readonly all: Cell;
  readonly used?: boolean;
}

const count = (value: number): Cell => fixed(formatCount(value));

const columnsOf = (
  { instrument, articulations }: Inspection,
  look: Look,
): readonly InspectColumn[] => {
  const unit = tableUnit(instrument.bytes);
  const none = fixed('');
  return [
    {
      column: { title: [nounsOf(instrument).title], align: 'left', min: 10 },
      cell: (one) => name(one.name, look),
      all: shortened(['Whole instrument', 'Whole'], look.colors.bold),
    },
    {
      column: { title: ['Switch'], align: 'left', min: 8, leaveOut: 2 },
      cell: (one) => (one.switch === null ? fixed('-') : name(keySwitch(one.switch, look), look)),
      all: none,
      // A preset's name begins with the numbers that select it.
      used:
        instrument.kind !== 'soundfont bank' && articulations.some((one) => one.switch !== null),
    },
    {
      column: { title: ['Keys'], align: 'left', min: 15, leaveOut: 0 },
      cell: (one) => keys(one.keys, look),
      all: none,
    },
    {
      column: { title: ['Layers'], align: 'right', leaveOut: 3 },
      cell: ({ layers }) => count(layers.length),
      all: count(articulations.reduce((sum, { layers }) => sum + layers.length, 0)),
    },
    {
      column: { title: ['Takes'], align: 'right', leaveOut: 8 },
      cell: ({ roundRobins }) => (roundRobins === null ? fixed('-') : count(roundRobins)),
      all: none,
      used: articulations.some(({ roundRobins }) => roundRobins !== null && roundRobins > 1),
    },
    {
      column: { title: ['Mics'], align: 'right', leaveOut: 7 },
      cell: ({ microphones }) => count(microphones.length),
      all: count(new Set(articulations.flatMap(({ microphones }) => microphones)).size),
      used: articulations.some(({ microphones }) => microphones.length > 0),
    },
    {
      column: { title: ['Release', 'zones'], align: 'right', leaveOut: 6 },
      cell: ({ releases }) => count(releases),
      all: none,
      used: articulations.some(({ releases }) => releases > 0),
    },
    {
      column: { title: ['Zones'], align: 'right', leaveOut: 1 },
      cell: ({ zones }) => count(zones),
      all: count(instrument.zones),
    },
    {
      column: { title: ['Samples'], align: 'right', leaveOut: 4 },
      cell: ({ samples }) => count(samples),
      all: count(instrument.samples),
    },
    {
      column: { title: ['Size', unit.name], align: 'right' },
      cell: ({ bytes }) => fixed(bytesIn(bytes, unit)),
      all: fixed(bytesIn(instrument.bytes, unit)),
    },
  ];
};

const articulationTable = (inspection: Inspection, look: Look): readonly string[] => {
  const columns = columnsOf(inspection, look).filter(({ used = true }) => used);
  const { text, leftOut } = layOut(
    columns.map(({ column }) => column),
    [
      ...inspection.articulations.map((one) => columns.map(({ cell }) => cell(one))),
      'rule',
      columns.map(({ all }) => all),
    ],
    look,
  );
  return [text, ...notShown(leftOut, look)];
};

/** One instrument as it is: what it holds, a row for each articulation, and with details its layers. */
export const inspectTable = (inspection: Inspection, look: Look): string => {
  const sections: readonly (readonly string[])[] = [
    heading(inspection, look),
    articulationTable(inspection, look),
    ...(look.details === true ? [layersTable(inspection, look)] : []),
    keyMapText(inspection.map, look, { title: 'Keys and layers' }),
    aboutInspection(inspection, look),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
};
