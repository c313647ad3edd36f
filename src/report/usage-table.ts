import type { CueNotes, NoteUsage } from '../playback/note-usage.ts';
import { keyName } from '../terms/key.ts';
import { fixed, name, type Cell } from './cell.ts';
import { formatCount, formatDuration, plural } from './format.ts';
import type { Look } from './look.ts';
import { paragraph } from './paragraph.ts';
import { always, musicColumns, nameColumn, partTable, type PartColumn } from './part-table.ts';
import { layOut, type Column, type Row } from './table.ts';
import { cueSection } from './usage-cue.ts';
import { reelParts, reelTotals, type ReelPart, type ReelTotals } from './usage-reel.ts';

/** Each cue in a row, then their sum. What could not be read shows no figures. */
const cuesTable = (usage: NoteUsage, look: Look): string => {
  const { colors } = look;
  const states = {
    read: fixed(''),
    damaged: fixed('damaged', colors.yellow),
    unreadable: fixed('NOT READ', colors.red),
  };
  const allRead = usage.cues.every(({ state }) => state === 'read');
  const columns: readonly Column[] = [
    { title: ['Cue'], align: 'left', min: 8 },
    { title: ['Length'], align: 'right' },
    { title: ['Bars'], align: 'right', leaveOut: 1 },
    { title: ['Parts'], align: 'right', leaveOut: 2 },
    { title: ['Notes'], align: 'right' },
    ...(allRead ? [] : [{ title: ['State'], align: 'left' } as const]),
  ];
  const row = (first: Cell, sums: ReelTotals, state: CueNotes['state'] | null): Row => {
    const known = (text: string): Cell => fixed(state === 'unreadable' ? '?' : text);
    return [
      first,
      known(formatDuration(sums.seconds)),
      known(formatCount(sums.bars)),
      known(formatCount(sums.parts)),
      known(formatCount(sums.notes)),
      ...(allRead ? [] : [state === null ? fixed('') : states[state]]),
    ];
  };
  const rows: readonly Row[] = [
    ...usage.cues.map((cue) =>
      row(name(cue.id, look), { ...cue, parts: cue.parts.length }, cue.state),
    ),
    'rule',
    row(fixed(plural(usage.cues.length, 'cue'), colors.bold), reelTotals(usage), null),
  ];
  return layOut(columns, rows, look).text;
};

const reelSection = (usage: NoteUsage, look: Look): readonly string[] => {
  const parts = reelParts(usage.cues);
  const columns: readonly PartColumn<ReelPart>[] = [
    nameColumn(look),
    {
      column: { title: ['Cues'], align: 'right', leaveOut: 6 },
      used: always,
      cell: ({ cues }) => fixed(formatCount(cues)),
    },
    ...musicColumns(look),
  ];
  return [
    look.colors.bold('The whole reel'),
    '',
    cuesTable(usage, look),
    ...(parts.length === 0 ? [] : ['', ...partTable(parts, columns, look)]),
  ];
};

const footer = (usage: NoteUsage, look: Look): readonly string[] => {
  const switches = usage.cues.some(({ parts }) =>
    parts.some(({ likelySwitches }) => likelySwitches.length > 0),
  );
  const notes = [
    `Keys: middle C is ${keyName(60, look.middleC)} (60). Tracks and programs count from 0, ports and channels from 1.`,
    ...(switches
      ? [
          'Likely switches are a guess: short notes an octave or more away from the rest of the part. They count as notes.',
        ]
      : []),
  ];
  return notes.flatMap((text) => paragraph([{ text, paint: look.colors.dim }], look.width));
};

/** What the score plays: a section for each cue, then, if there are several, the reel as a whole. */
export const usageTable = (usage: NoteUsage, look: Look): string => {
  if (usage.cues.length === 0) return 'No cues.\n';
  const sections: readonly (readonly string[])[] = [
    ...usage.cues.map((cue) => cueSection(cue, look)),
    ...(usage.cues.length > 1 ? [reelSection(usage, look)] : []),
    footer(usage, look),
  ];
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};
