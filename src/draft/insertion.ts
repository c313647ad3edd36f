/** Text that is put into a file, everything else staying as it is. */
export interface Insertion {
  /** Before this UTF-16 unit. */
  readonly at: number;
  readonly text: string;
}

/** Puts texts in; those for one place in the order given. */
export const insert = (text: string, insertions: readonly Insertion[]): string => {
  const pieces: string[] = [];
  let done = 0;
  for (const { at, text: piece } of [...insertions].sort((a, b) => a.at - b.at)) {
    pieces.push(text.slice(done, at), piece);
    done = at;
  }
  return `${pieces.join('')}${text.slice(done)}`;
};

/** The line ends of a file. */
export const lineEndOf = (text: string): string =>
  /\r?\n/.exec(text)?.[0] === '\r\n' ? '\r\n' : '\n';

/** Lines in front of what is at `at`, on lines of their own. */
export const insertLines = (text: string, at: number, lines: readonly string[]): Insertion => {
  const end = lineEndOf(text);
  // The last line of a file often has no end.
  const before = at === 0 || text[at - 1] === '\n' ? '' : end;
  return { at, text: `${before}${lines.join(end)}${end}` };
};
