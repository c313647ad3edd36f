import type { PartNotes } from '../playback/note-usage.ts';
import { percussionChannel } from '../terms/general-midi.ts';
import { fixed, keys, name, span, type Cell } from './cell.ts';
import { formatCount } from './format.ts';
import type { Look } from './look.ts';
import { controllersCell, programsCell, switchesCell } from './part-cells.ts';
import { layOut, notShown, type Column } from './table.ts';

/** A column with what it shows of a part. One that would be empty throughout is not made. */
export interface PartColumn<Part> {
  readonly column: Column;
  readonly used: (part: Part) => boolean;
  readonly cell: (part: Part) => Cell;
}

export const always = (): boolean => true;

/** The name of a track, cut where room is short. */
export const nameColumn = (look: Look): PartColumn<Pick<PartNotes, 'trackName'>> => ({
  column: { title: ['Name'], align: 'left', min: 8 },
  used: always,
  cell: ({ trackName }) => name(trackName ?? '', look),
});

/** What the parts of a cue and their sums over the reel have in common. */
export const musicColumns = (
  look: Look,
): readonly PartColumn<Omit<PartNotes, 'file' | 'track'>>[] => [
  {
    column: { title: ['Port/ch'], align: 'right', leaveOut: 5 },
    used: always,
    cell: ({ port, channel }) => fixed(`${String(port)}/${String(channel)}`),
  },
  {
    column: { title: ['Notes'], align: 'right' },
    used: always,
    cell: ({ notes }) => fixed(formatCount(notes)),
  },
  {
    column: { title: ['Keys'], align: 'left', min: 15 },
    used: always,
    cell: (part) => keys(part.keys, look),
  },
  {
    column: { title: ['Velocity'], align: 'left', leaveOut: 4 },
    used: always,
    cell: ({ velocities }) => span(velocities),
  },
  {
    column: { title: ['Controllers'], align: 'left', min: 12, leaveOut: 2 },
    used: ({ controllers }) => controllers.length > 0,
    cell: ({ controllers }) => controllersCell(controllers),
  },
  {
    column: { title: ['Programs'], align: 'left', min: 8, leaveOut: 1 },
    used: ({ programs, channel }) => programs.length > 0 || channel === percussionChannel,
    cell: programsCell,
  },
  {
    column: { title: ['Likely', 'switches'], align: 'left', min: 8, leaveOut: 3 },
    used: ({ likelySwitches }) => likelySwitches.length > 0,
    cell: ({ likelySwitches }) => switchesCell(likelySwitches, look),
  },
];

/** Parts, a row each, in the columns that any of them uses. */
export const partTable = <Part>(
  parts: readonly Part[],
  columns: readonly PartColumn<Part>[],
  look: Look,
): readonly string[] => {
  const used = columns.filter((column) => parts.some((part) => column.used(part)));
  const { text, leftOut } = layOut(
    used.map(({ column }) => column),
    parts.map((part) => used.map(({ cell }) => cell(part))),
    look,
  );
  return [text, ...notShown(leftOut, look)];
};
