import type { CueRest, InstrumentRests, ReelMemory } from '../keep/reel/reel-memory.ts';
import { fixed, name, type Cell } from './cell.ts';
import { bytesIn, formatBytes, formatCount, formatDuration, plural, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { figureWords, largestOf, loadTimeCell, momentWords, noRate } from './memory-words.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { layOut, notShown } from './table.ts';

/** More rests than these are not worth an unloading. */
const mostRests = 3;

/** Of what does not play, the rest is counted. */
const mostSilent = 8;

/** When each instrument of one cue plays, and where it rests longest; nothing where not asked for. */
export const memoryCue = (memory: ReelMemory, look: Look): readonly string[] => {
  const { cue } = memory;
  if (cue === null) return [];
  const { colors, width } = look;
  const at = cue.start.timecode === null ? '' : `, from ${cue.start.timecode}`;
  const heading = {
    text: `Cue ${nameInText(cue.id, look)}`,
    paint: (text: string): string => colors.bold(colors.cyan(text)),
  };
  const need = memory.cues.find(({ id }) => id === cue.id);
  const length = formatDuration(need?.seconds ?? cue.end.seconds - cue.start.seconds);
  if (cue.unreadable.length > 0) {
    const files = nameList(cue.unreadable, look);
    return paragraph(
      [
        heading,
        `can not be read (${files}): when its instruments play is unknown, and all are needed.`,
      ],
      width,
    );
  }
  if (cue.instruments.length === 0) {
    return paragraph(
      [heading, `(${length}${at}) plays no instrument.`, ...silent(memory, look)],
      width,
    );
  }
  return [
    ...paragraph(
      [
        heading,
        ...(need === undefined ? [] : [`needs ${figureWords(need)}`]),
        `(${length}${at}, ${plural(cue.instruments.length, 'instrument')})`,
      ],
      width,
    ),
    '',
    ...table(cue.instruments, look),
    ...paragraph(silent(memory, look), width),
    ...paragraph(
      [
        `Moments are bar.beat (minutes:seconds); rests are whole bars. Rests are worked out from notes, pedals and release times; where those are not read (SoundFont, tables) or not known, ${plural(cue.assumedRelease, 'second')} are taken. An instrument that is loaded again has forgotten its switch, program and controllers: send them again. Keep it loaded if in doubt: effects and long tails may sound on.`,
      ],
      width,
    ),
  ];
};

/** What is loaded for the cue and does not play in it: pins and the like. */
const silent = ({ cue, cues }: ReelMemory, look: Look): Paragraph => {
  const playing = new Set(cue?.instruments.map(({ id }) => id));
  const idle = (cues.find(({ id }) => id === cue?.id)?.instruments ?? [])
    .filter(({ zones }) => zones > 0)
    .filter(({ id, bytes }) => bytes > 0 && !playing.has(id))
    .toSorted((a, b) => b.bytes - a.bytes);
  if (idle.length === 0) return [];
  const shown = idle
    .slice(0, mostSilent)
    .map(({ id, bytes }) => `${nameInText(id, look)} ${formatBytes(bytes)}`);
  const more = idle.length - shown.length;
  const rest = more > 0 ? ` and ${formatCount(more)} more` : '';
  return [`Needed, and not played here: ${shown.join(', ')}${rest}.`];
};

const table = (instruments: readonly InstrumentRests[], look: Look): readonly string[] => {
  const unit = tableUnit(largestOf(instruments.map(({ bytes }) => bytes)));
  const oneMachine = new Set(instruments.map(({ machine }) => machine)).size === 1;
  const { text, leftOut } = layOut(
    [
      { title: ['Instrument'], align: 'left', min: 10 },
      ...(oneMachine ? [] : [{ title: ['Machine'], align: 'left' as const, min: 4, leaveOut: 4 }]),
      { title: ['Needs', unit.name], align: 'right' },
      { title: ['Notes'], align: 'right', leaveOut: 5 },
      { title: ['First'], align: 'right', leaveOut: 2 },
      { title: ['Last'], align: 'right', leaveOut: 3 },
      { title: ['Longest rests'], align: 'left', min: 13 },
      { title: ['Load', 'time'], align: 'right', leaveOut: 1 },
    ],
    instruments.map((one): readonly Cell[] => [
      name(one.id, look),
      ...(oneMachine ? [] : [name(one.machine, look)]),
      fixed(bytesIn(one.bytes, unit)),
      fixed(formatCount(one.notes)),
      fixed(momentWords(one.first)),
      fixed(momentWords(one.last)),
      restsCell(one.rests),
      loadTimeCell(one.loadSeconds),
    ]),
    look,
  );
  return [
    text,
    ...notShown(leftOut, look),
    ...noRate(
      instruments.map(({ loadSeconds }) => loadSeconds),
      look,
    ),
  ];
};

const where = { before: 'before', between: '', after: 'after' } as const;

/** Whole bars that are free; where there is none, its moments. */
const bars = ({ at, from, to }: CueRest): string => {
  const first = from.beat > 1 ? from.bar + 1 : from.bar;
  // The cue may end within a bar.
  const last = at === 'after' && to.beat > 1 ? to.bar : to.bar - 1;
  if (first > last) return `${momentOf(from)} to ${momentOf(to)}`;
  return first === last ? `bar ${String(first)}` : `bars ${String(first)}-${String(last)}`;
};

const momentOf = ({ bar, beat }: CueRest['from']): string =>
  `${String(bar)}.${String(Math.floor(beat))}`;

/** The longest rests one below the other, in bars and minutes, or in bars alone. */
const restsCell = (rests: readonly CueRest[]): Cell => {
  const shown = rests.slice(0, mostRests);
  if (shown.length === 0) return fixed('none');
  const long = shown
    .map((rest) => {
      const at = where[rest.at] === '' ? '' : `, ${where[rest.at]}`;
      const span = `${formatDuration(rest.from.seconds)}-${formatDuration(rest.to.seconds)}`;
      return `${bars(rest)} (${span}${at})`;
    })
    .join('\n');
  const short = shown.map(bars).join('\n');
  const room = largestOf(long.split('\n').map(({ length }) => length));
  return { whole: long, fit: (width) => (width >= room ? long : short) };
};
