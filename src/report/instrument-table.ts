import type { PlanArticulation, PlanInstrument, PlanPin } from '../keep/plan.ts';
import { printable } from '../terms/printable.ts';
import { fixed, keys, name, shortened, shownName, type Cell } from './cell.ts';
import { widest } from './column-widths.ts';
import { dynamicsCell } from './dynamics-cell.ts';
import { tableUnit, bytesIn, formatBytes, formatCount, formatShare, plural } from './format.ts';
import { nounsOf } from './instrument-nouns.ts';
import type { Look } from './look.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { layOutWithSpare, type SpareColumn } from './spare-columns.ts';
import { notShown, type Row } from './table.ts';
import { whyKept } from './why-kept.ts';

/** Names up to here are cut only where nothing else can give room. */
const widestWhole = 24;

const of = (part: number, whole: number): Cell =>
  fixed(`${formatCount(part)}/${formatCount(whole)}`);

const layersKept = ({ layers }: PlanArticulation): number =>
  layers.filter(({ zonesKept }) => zonesKept > 0).length;

const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0);

const isReached = ({ zonesKept }: PlanArticulation): boolean => zonesKept > 0;

/** One instrument: a row for each articulation that keeps a zone, the others gathered in one. */
export const instrumentTable = (
  instrument: PlanInstrument,
  pins: readonly PlanPin[],
  look: Look,
): readonly string[] => {
  const { colors } = look;
  const nouns = nounsOf(instrument);
  const unit = tableUnit(instrument.bytes.full);
  const memory = (count: number): Cell => fixed(bytesIn(count, unit));
  const saved = (count: number): Cell =>
    fixed(bytesIn(count, unit), count > 0 ? colors.green : undefined);

  /** What several articulations share is counted in each: their sum may be more than there is. */
  const atMost = (count: number, limit: number, paint?: Cell['paint']): Cell =>
    count <= limit
      ? fixed(bytesIn(count, unit), paint)
      : fixed(`${look.ascii ? '<=' : '≤'} ${bytesIn(limit, unit)}`, paint);

  const reached = instrument.articulations.filter(isReached);
  const unreached = instrument.articulations.filter((each) => !isReached(each));
  const notes = sum(reached, (each) => each.notes);
  /** Of one articulation it says nothing. */
  const hasShares = reached.filter((each) => each.notes > 0).length > 1;
  const share = (part: number): Cell =>
    fixed((hasShares && part > 0 ? formatShare(part, notes) : null) ?? '');

  const reachedRow = (articulation: PlanArticulation): readonly Cell[] => [
    name(articulation.name, look),
    articulation.notes === 0
      ? fixed('none', colors.yellow)
      : fixed(formatCount(articulation.notes)),
    share(articulation.notes),
    articulation.notes === 0
      ? shortened(whyKept(articulation, instrument, pins), colors.yellow)
      : keys(articulation.keys, look),
    dynamicsCell(articulation),
    of(layersKept(articulation), articulation.layers.length),
    of(articulation.zonesKept, articulation.zones),
    memory(articulation.bytes.kept),
    memory(articulation.bytes.full),
    saved(articulation.bytes.full - articulation.bytes.kept),
  ];

  const unreachedRow = (): readonly Cell[] => {
    const full = sum(unreached, ({ bytes }) => bytes.full);
    const kept = sum(unreached, ({ bytes }) => bytes.kept);
    const limits = instrument.bytes;
    return [
      shortened([
        `${plural(unreached.length, nouns.one, nouns.many)} never played`,
        `${formatCount(unreached.length)} never played`,
        `${formatCount(unreached.length)} unplayed`,
      ]),
      fixed('0'),
      fixed(''),
      fixed('-'),
      fixed(''),
      of(
        0,
        sum(unreached, ({ layers }) => layers.length),
      ),
      of(
        0,
        sum(unreached, ({ zones }) => zones),
      ),
      atMost(kept, limits.kept),
      atMost(full, limits.full),
      atMost(full - kept, limits.full - limits.kept, colors.green),
    ];
  };

  const wholeRow: readonly Cell[] = [
    shortened(['Whole instrument', 'Whole'], colors.bold),
    fixed(formatCount(notes)),
    fixed(''),
    fixed(''),
    fixed(''),
    of(
      sum(reached, layersKept),
      sum(instrument.articulations, ({ layers }) => layers.length),
    ),
    of(instrument.zonesKept, instrument.zones),
    memory(instrument.bytes.kept),
    memory(instrument.bytes.full),
    saved(instrument.bytes.full - instrument.bytes.kept),
  ];

  const columns: readonly SpareColumn[] = [
    { title: [nouns.title], align: 'left', min: 10 },
    { title: ['Notes'], align: 'right', leaveOut: 1 },
    { title: ['Share'], align: 'right', leaveOut: 6, spare: true },
    { title: ['Keys played'], align: 'left', min: 15, leaveOut: 0 },
    { title: ['Dynamics'], align: 'left', leaveOut: 5, spare: true },
    { title: ['Layers', 'kept'], align: 'right', leaveOut: 4, spare: true },
    { title: ['Zones', 'kept'], align: 'right', leaveOut: 2 },
    { title: ['Kept', unit.name], align: 'right' },
    { title: ['All', unit.name], align: 'right', leaveOut: 3 },
    { title: ['Saved', unit.name], align: 'right' },
  ];
  const rows: readonly Row[] = [
    ...reached.map(reachedRow),
    ...(unreached.length === 0 ? [] : [unreachedRow()]),
    'rule',
    wholeRow,
  ];
  const names = Math.min(widest(reached.map((each) => shownName(each.name, look))), widestWhole);
  const { text, leftOut } = layOutWithSpare(columns, rows, look, names);
  return [
    ...heading(instrument, look),
    '',
    text,
    ...remarks(instrument, look),
    ...notShown(leftOut, look),
  ];
};

const heading = ({ id, source, machine }: PlanInstrument, look: Look): readonly string[] => {
  const { bold, cyan, dim } = look.colors;
  return paragraph(
    [
      { text: nameInText(id, look), paint: (text) => bold(cyan(text)) },
      { text: `(${printable(source)})`, paint: dim },
      ...(machine === 'default' ? [] : [`on machine ${nameInText(machine, look)}`]),
    ],
    look.width,
  );
};

/** What the rows cannot show: coarser players, copies apart, sizes not known, ranges of the figures. */
const remarks = ({ bytes, unloads, copies }: PlanInstrument, look: Look): readonly string[] => {
  const lines: Paragraph[] = [];
  if (bytes.reached < bytes.kept) {
    lines.push([
      ...(unloads === 'sample' ? [] : [`Its player unloads by the ${unloads}.`]),
      `The cues reach ${formatBytes(bytes.reached)}; ${formatBytes(bytes.kept)} is as far down as it can be unloaded.`,
    ]);
  }
  if (copies.length > 1 && copies.some(({ kept }) => kept !== null)) {
    const zones = copies.map(
      (copy) => `${nameInText(copy.name, look)}: ${formatCount(copy.zonesKept)}`,
    );
    lines.push([`Each copy keeps zones of its own: ${nameList(zones, look)}.`]);
  }
  if (bytes.unknownSamples > 0) {
    lines.push([
      { text: '!', paint: look.colors.yellow },
      `${plural(bytes.unknownSamples, 'sample')} of unknown size: not counted.`,
    ]);
  }
  if (bytes.low !== bytes.high) {
    lines.push([
      `Kept memory is between ${formatBytes(bytes.low)} and ${formatBytes(bytes.high)}.`,
    ]);
  }
  return lines.flatMap((line) => paragraph(line, look.width));
};
