import type { CueNotes, PartNotes } from '../playback/note-usage.ts';
import { percussionChannel, percussionName } from '../terms/general-midi.ts';
import { contains } from '../terms/range.ts';
import { fixed, name, shownName } from './cell.ts';
import { formatDuration, plural } from './format.ts';
import type { Look } from './look.ts';
import { paragraph } from './paragraph.ts';
import { always, musicColumns, nameColumn, partTable, type PartColumn } from './part-table.ts';
import { wrapWords } from './text-width.ts';

const allKeys = Array.from({ length: 128 }, (_, key) => key);

/** The drums behind the keys of channel 10, if the channel is what General MIDI makes of it. */
const percussionLines = (parts: readonly PartNotes[], look: Look): readonly string[] => {
  const drums = parts.filter(({ channel }) => channel === percussionChannel);
  const played = (key: number): boolean =>
    drums.some(({ keys }) => keys.some((range) => contains(range, key)));
  const named = allKeys.filter(played).flatMap((key) => {
    const drum = percussionName(key);
    return drum === null ? [] : [`${drum} (${String(key)})`];
  });
  if (named.length === 0) return [];
  const opening = 'Channel 10 as General MIDI names it:';
  const items = named.map((text, i) => `${text}${i < named.length - 1 ? ',' : '.'}`);
  return look.width === null
    ? [[opening, ...items].join(' ')]
    : wrapWords([...opening.split(' '), ...items], look.width);
};

const heading = (cue: CueNotes, look: Look): readonly string[] => {
  const { bold, cyan, red, yellow } = look.colors;
  const id = { text: shownName(cue.id, look), paint: (text: string) => bold(cyan(text)) };
  if (cue.state === 'unreadable') {
    const text = 'could not be read: what it plays is unknown.';
    return paragraph([id, { text, paint: red }], look.width);
  }
  const figures = [
    formatDuration(cue.seconds),
    plural(cue.bars, 'bar'),
    plural(cue.notes, 'note'),
    plural(cue.parts.length, 'part'),
  ].join(', ');
  const damaged = [{ text: '! Damaged:', paint: yellow }, 'it plays more than could be read.'];
  return [
    ...paragraph([id, `(${figures})`], look.width),
    ...(cue.state === 'damaged' ? paragraph(damaged, look.width) : []),
  ];
};

/** Only cues that come as several files say which; the table then has a column for it. */
const fileLines = ({ files }: CueNotes, look: Look): readonly string[] =>
  files.length < 2
    ? []
    : files.map(({ path }, i) => {
        const label = `  file ${String(i + 1)}: `;
        const room = look.width === null ? Infinity : Math.max(look.width - label.length, 12);
        return look.colors.dim(`${label}${name(path, look).fit(room)}`);
      });

/** One cue: how long it is and what each of its parts plays. */
export const cueSection = (cue: CueNotes, look: Look): readonly string[] => {
  const columns: readonly PartColumn<PartNotes>[] = [
    {
      column: { title: ['File'], align: 'right', leaveOut: 0 },
      used: () => cue.files.length > 1,
      cell: ({ file }) => fixed(String(file + 1)),
    },
    {
      column: { title: ['Track'], align: 'right' },
      used: always,
      cell: ({ track }) => fixed(String(track)),
    },
    nameColumn(look),
    ...musicColumns(look),
  ];
  return [
    ...heading(cue, look),
    ...fileLines(cue, look),
    ...(cue.parts.length === 0 ? [] : ['', ...partTable(cue.parts, columns, look)]),
    ...percussionLines(cue.parts, look),
  ];
};
