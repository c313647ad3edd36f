import type { ReelMachine, ReelMemory, WayToFit } from '../keep/reel/reel-memory.ts';
import { bullets } from './bullets.ts';
import { shownName } from './cell.ts';
import { formatBytes } from './format.ts';
import type { Look } from './look.ts';
import { isInGroups } from './memory-verdict.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { shellWord } from './shell-word.ts';

/** Of each kind, and of the largest instruments; all where details are asked for. */
const mostOfKind = 3;
const mostLargest = 5;

const kinds: readonly WayToFit['kind'][] = ['settle', 'move', 'unload-by', 'trim'];

/** What would free memory on the machines that are too small. */
export const memoryRoom = (memory: ReelMemory, look: Look): readonly (readonly string[])[] =>
  isInGroups(memory)
    ? []
    : memory.machines
        .filter(({ fits }) => fits === false)
        .map((machine) => roomOn(machine, memory, look));

const roomOn = (machine: ReelMachine, memory: ReelMemory, look: Look): readonly string[] => {
  const { id, ways, largest } = machine;
  const shown = kinds.flatMap((kind) =>
    ways
      .filter((way) => way.kind === kind && way.bytes > 0)
      .toSorted((a, b) => Number(b.fits) - Number(a.fits) || b.bytes - a.bytes)
      .slice(0, look.details === true ? Infinity : mostOfKind),
  );
  const heading = `What would make room on machine ${nameInText(id, look)}`;
  const most = largest
    .slice(0, mostLargest)
    .map((one) => `${nameInText(one.instrument, look)} ${formatBytes(one.bytes)}`);
  return [
    ...(shown.length === 0 ? [look.colors.bold(heading)] : []),
    ...bullets(
      heading,
      shown.map((way) => wayWords(way, id, look)),
      look,
    ),
    ...(most.length === 0 ? [] : paragraph([`Most is taken by ${most.join(', ')}.`], look.width)),
    ...paragraph(conclusion(shown, memory), look.width),
  ];
};

/** Ways to make room, a sentence each, as plain text. */
export const roomWays = (
  ways: readonly WayToFit[],
  machine: string,
  look: Look,
): readonly string[] =>
  ways.map((way) =>
    wayWords(way, machine, look)
      .map((part) => (typeof part === 'string' ? part : part.text))
      .join(' '),
  );

const conclusion = (ways: readonly WayToFit[], { groups, cues, keep }: ReelMemory): Paragraph => {
  const again = keep === null ? '' : ' To try an answer, leave out --keep; then plan again.';
  if (ways.some(({ fits }) => fits)) {
    return [`Each is counted by itself, all else as it is.${again}`];
  }
  const loading =
    cues.length < 2 || (groups !== null && groups.alone.length > 0)
      ? ''
      : groups === null
        ? ', or load the cues in groups (--groups)'
        : ', or load the cues in the groups below';
  return ways.length === 0
    ? [
        `Nothing was found that would free memory there${loading === '' ? '' : loading.replace(', or', ':')}.`,
      ]
    : [`None of these is enough alone: take several${loading}.`];
};

const wayWords = (way: WayToFit, machine: string, look: Look): Paragraph => {
  const less = `${formatBytes(way.bytes)} less`;
  const both =
    way.kind === 'move' ? 'both machines fit' : `machine ${nameInText(machine, look)} fits`;
  const end = way.fits ? [{ text: `${less}, and then ${both}`, paint: look.colors.green }] : [less];
  switch (way.kind) {
    case 'settle': {
      const flags = way.doubts.map((doubt) => `--settle ${doubt}=plain`).join(' ');
      return [`settle ${way.doubts.join(' and ')} as plain:`, ...end, `(${flags})`];
    }
    case 'unload-by':
      return [
        `${nameInText(way.instrument, look)} unloading by the ${way.to} instead of the ${way.from}:`,
        ...end,
      ];
    case 'trim':
      return [`write a smaller ${nameInText(way.instrument, look)} with keepset trim:`, ...end];
    case 'move': {
      const to = shellWord(way.to);
      // A name that was cut is not one to write down.
      const write = shownName(way.to, look) === way.to ? [`(machine: ${to} in the template)`] : [];
      return [
        `move ${nameInText(way.instrument, look)} to machine ${nameInText(way.to, look)}:`,
        ...end,
        ...write,
      ];
    }
  }
};
