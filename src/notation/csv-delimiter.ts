/** What divides the cells of a row. */
export type Delimiter = ',' | ';' | '\t';

/** A first line that says it, as some spreadsheets write and read; the whole cell may be quoted. */
const stated = /^(?:sep=([,;\t])|"sep=([,;\t])") ?(?:\r\n|\r|\n|$)/iu;

/** The first line with text, from its start to its end outside quotes: a cell may hold line ends. */
const countIn = (text: string): Readonly<Record<Delimiter, number>> => {
  const counts = { ',': 0, ';': 0, '\t': 0 };
  const first = text.search(/\S/u);
  let at = Math.max(text.lastIndexOf('\n', first), text.lastIndexOf('\r', first)) + 1;
  let quoted = false;
  for (; first >= 0 && at < text.length; at += 1) {
    const character = text[at];
    if (character === '"') quoted = !quoted;
    else if (quoted) continue;
    else if (character === '\n' || character === '\r') break;
    else if (character === ',' || character === ';' || character === '\t') counts[character] += 1;
  }
  return counts;
};

/**
 * What divides the cells of a table, and where its rows start: after a leading line `sep=;`, if there
 * is one. Otherwise it is the one that occurs most in the first line with text, outside quotes; of
 * several, and for none, the first of `,` `;` TAB.
 */
export const findDelimiter = (
  text: string,
): { readonly delimiter: Delimiter; readonly start: number } => {
  const [line, bare, quoted = bare] = stated.exec(text) ?? [];
  if (line !== undefined) return { delimiter: quoted as Delimiter, start: line.length };
  const counts = countIn(text);
  let delimiter: Delimiter = ',';
  if (counts[';'] > counts[delimiter]) delimiter = ';';
  if (counts['\t'] > counts[delimiter]) delimiter = '\t';
  return { delimiter, start: 0 };
};
