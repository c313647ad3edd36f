/** Output that a page shows, in one stretch of lines of the page. */
export interface ShownPart {
  readonly lines: readonly string[];
  /** The first line, counted from 0, and the line behind the last. */
  readonly from: number;
  readonly to: number;
}

/** A command as the reader types it, and what the page says it prints. */
export interface CommandStep {
  readonly kind: 'command';
  readonly line: string;
  /** The line of the page, counted from 1. */
  readonly at: number;
  /** The exit code: 0, unless `<!-- exit: 1 -->` stands above the block. */
  readonly exit: number;
  /** One part, and more where `<!-- continued -->` stands above a later block. */
  readonly shown: ShownPart[];
}

/** A file that the reader writes: a block below `<!-- file: NAME -->`. */
interface FileStep {
  readonly kind: 'file';
  readonly path: string;
  readonly text: string;
}

export type Step = CommandStep | FileStep;

interface Block {
  /** Comments right above it, without their marks. */
  readonly notes: readonly string[];
  readonly lines: readonly string[];
  /** The first line within, counted from 0. */
  readonly from: number;
}

const fence = '```';
const comment = /^<!-- (.*) -->$/;

const blocksOf = (lines: readonly string[]): readonly Block[] => {
  const blocks: Block[] = [];
  let notes: string[] = [];
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i] ?? '';
    const note = comment.exec(line)?.[1];
    if (note !== undefined) notes.push(note);
    else if (line.startsWith(fence)) {
      const end = lines.indexOf(fence, i + 1);
      if (end < 0) throw new Error(`line ${i + 1}: this block has no end`);
      blocks.push({ notes, lines: lines.slice(i + 1, end), from: i + 1 });
      notes = [];
      i = end;
    } else if (line.trim() !== '') notes = [];
  }
  return blocks;
};

const valueOf = (notes: readonly string[], name: string): string | undefined =>
  notes.find((note) => note.startsWith(`${name}: `))?.slice(name.length + 2);

const commandsOf = ({ lines, from, notes }: Block): readonly CommandStep[] => {
  const starts = lines.flatMap((line, i) => (line.startsWith('$ ') ? [i] : []));
  return starts.map((start, i) => {
    const end = starts[i + 1] ?? lines.length;
    const part = { lines: lines.slice(start + 1, end), from: from + start + 1, to: from + end };
    return {
      kind: 'command',
      line: (lines[start] ?? '').slice(2),
      at: from + start + 1,
      exit: Number(valueOf(notes, 'exit') ?? 0),
      shown: part.lines.length > 0 ? [part] : [],
    };
  });
};

/** What a page has its reader do, in order. */
export const stepsOf = (page: string): readonly Step[] => {
  const steps: Step[] = [];
  let last: CommandStep | undefined;
  for (const block of blocksOf(page.split('\n'))) {
    const path = valueOf(block.notes, 'file');
    if (path !== undefined) steps.push({ kind: 'file', path, text: `${block.lines.join('\n')}\n` });
    else if (block.notes.includes('continued')) {
      if (last === undefined) throw new Error(`line ${block.from}: nothing comes before it`);
      last.shown.push({
        lines: block.lines,
        from: block.from,
        to: block.from + block.lines.length,
      });
    } else {
      const commands = commandsOf(block);
      steps.push(...commands);
      last = commands.at(-1) ?? last;
    }
  }
  return steps;
};
