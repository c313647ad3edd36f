import { CST, Lexer, LineCounter, Parser } from 'yaml';

/** Levels of lists and keys in each other; a template needs 5. */
export const deepest = 20;

/** Enough to tell a person of; the rest of the file is then not looked at. */
const most = 20;

/** A piece of the file that YAML knows and a template may not hold. */
export interface Shorthand {
  readonly kind: 'alias' | 'anchor' | 'tag' | 'directive' | 'merge';
  readonly offset: number;
  readonly text: string;
}

/** The file as a row of tokens, and what was met on the way. */
export interface Scan {
  /** Those of the first document, and error tokens. */
  readonly tokens: readonly CST.Token[];
  readonly lines: LineCounter;
  readonly shorthands: readonly Shorthand[];
  /** Where the nesting gets too deep; null: nowhere. The tokens end there. */
  readonly tooDeep: number | null;
  /** Where a second document begins; null: nowhere. The tokens end there. */
  readonly secondDocument: number | null;
  /** Where a quote opens that is never closed; null: nowhere. */
  readonly openQuote: number | null;
  /** Where the innermost bracket opens that is never closed; null: nowhere. */
  readonly openBracket: number | null;
}

const shorthands: ReadonlyMap<string | null, Shorthand['kind']> = new Map([
  ['alias', 'alias'],
  ['anchor', 'anchor'],
  ['tag', 'tag'],
  ['directive-line', 'directive'],
]);

const isOpen = (quoted: string): boolean => quoted.length < 2 || !quoted.endsWith(quoted[0]!);

/**
 * Takes YAML apart without recursion. It stops at what a hostile file could take long with: nesting,
 * a further document, and more slips, aliases, anchors and tags than anybody wants to read about.
 */
export const scan = (text: string): Scan => {
  const lines = new LineCounter();
  lines.addNewLine(0);
  const parser = new Parser(lines.addNewLine);
  const tokens: CST.Token[] = [];
  const found: Shorthand[] = [];
  let brackets: number[] = [];
  let openBracket: number | null = null;
  let openQuote: number | null = null;
  let tooDeep: number | null = null;
  let isPlain = false;
  const documents: number[] = [];
  let errors = 0;
  const take = (token: CST.Token): void => {
    if (token.type === 'document') documents.push(token.offset);
    if (token.type === 'error') errors += 1;
    if (documents.length < 2) tokens.push(token);
  };
  for (const lexeme of new Lexer().lex(text)) {
    const { offset } = parser;
    const type: string | null = isPlain ? null : CST.tokenType(lexeme);
    const kind = isPlain && lexeme === '<<' ? 'merge' : shorthands.get(type);
    if (kind !== undefined) found.push({ kind, offset, text: lexeme });
    if (type === 'flow-map-start' || type === 'flow-seq-start') brackets.push(offset);
    if (type === 'flow-map-end' || type === 'flow-seq-end') brackets.pop();
    if (type === 'flow-error-end') {
      openBracket ??= brackets.at(-1) ?? null;
      brackets = [];
    }
    if (type?.endsWith('-quoted-scalar') === true && isOpen(lexeme)) openQuote ??= offset;
    isPlain = type === 'scalar';
    for (const token of parser.next(lexeme)) take(token);
    // Besides the levels the stack holds the document and the value that is being read.
    if (parser.stack.length > deepest + 2) tooDeep = offset;
    if (tooDeep !== null || documents.length > 1) break;
    if (found.length === most || errors === most) break;
  }
  if (tooDeep === null) for (const token of parser.end()) take(token);
  openBracket ??= brackets.at(-1) ?? null;
  const secondDocument = documents[1] ?? null;
  return { tokens, lines, shorthands: found, tooDeep, secondDocument, openQuote, openBracket };
};
