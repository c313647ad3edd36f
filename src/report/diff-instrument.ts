import type { DiffInstrument } from '../keep/compare/diff.ts';
import { diffRowTable } from './diff-row-table.ts';
import { diffRows } from './diff-rows.ts';
import { work } from './diff-words.ts';
import { plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';

/** More rows than this nobody reads through, unless they ask for them. */
const mostRows = 16;

/** What there is to do at one instrument, as a person does it: articulations, keys, layers, copies. */
export const diffInstrumentSection = (
  instrument: DiffInstrument,
  look: Look,
): readonly string[] => {
  const rows = diffRows(instrument);
  const shown = look.details === true ? rows : rows.slice(0, mostRows);
  const hidden = rows.length - shown.length;
  const lines: readonly Paragraph[] = [
    heading(instrument, look),
    ...remarks(instrument, look).map((text) => [text]),
  ];
  return [
    ...lines.flatMap((line) => paragraph(line, look.width)),
    ...(shown.length === 0 ? [] : ['', ...diffRowTable(instrument, shown, look)]),
    ...(hidden === 0
      ? []
      : paragraph(
          [
            `And ${plural(hidden, 'more row')}: --verbose shows all of them, and --format csv has every zone.`,
          ],
          look.width,
        )),
  ];
};

const isMoved = ({ machine: { from, to } }: DiffInstrument): boolean =>
  from !== null && to !== null && from !== to;

const heading = (instrument: DiffInstrument, look: Look): Paragraph => {
  const { bold, cyan, dim } = look.colors;
  const { id, source, machine } = instrument;
  const place = machine.to ?? machine.from;
  return [
    { text: nameInText(id, look), paint: (text) => bold(cyan(text)) },
    { text: `(${nameInText(source, look)})`, paint: dim },
    ...(place === null || place === 'default' || isMoved(instrument)
      ? []
      : [`on machine ${nameInText(place, look)}`]),
  ];
};

const remarks = (instrument: DiffInstrument, look: Look): readonly string[] => {
  const { definition, copiesLoaded, copiesUnloaded } = instrument;
  const todo = work(instrument);
  return [
    ...(todo === null ? [] : [`${todo}; ${whatStays(instrument)}.`]),
    ...moved(instrument, look),
    ...(definition === 'changed'
      ? ['Its definition has changed: unload all of it, then load what stays of the new one.']
      : []),
    ...(definition === 'added' ? ['It is new in the second keep file.'] : []),
    ...(definition === 'removed' ? ['It is not in the second keep file: close it.'] : []),
    ...named('Load a copy for', 'Load copies for', copiesLoaded, look),
    ...(definition === 'removed'
      ? []
      : named('Close the copy of', 'Close the copies of', copiesUnloaded, look)),
  ];
};

const whatStays = ({ load, unload, unchanged }: DiffInstrument): string => {
  const { zones } = unchanged;
  if (zones > 0) {
    return `${plural(zones, 'zone')} ${zones === 1 ? 'stays as it is' : 'stay as they are'}`;
  }
  if (unload.zones === 0) return 'nothing of it was loaded before';
  return load.zones === 0 ? 'nothing of it is needed' : 'nothing of it stays as it is';
};

const moved = (instrument: DiffInstrument, look: Look): readonly string[] => {
  const { from, to } = instrument.machine;
  if (from === null || to === null || from === to) return [];
  return [
    `It moves: unload it on machine ${nameInText(from, look)}, load it on machine ${nameInText(to, look)}.`,
  ];
};

const named = (
  one: string,
  many: string,
  copies: readonly string[],
  look: Look,
): readonly string[] =>
  copies.length === 0 ? [] : [`${copies.length === 1 ? one : many} ${nameList(copies, look)}.`];
