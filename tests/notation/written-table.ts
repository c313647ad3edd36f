import fc from 'fast-check';

/** One cell as a program might write it, and what it stands for. */
export interface WrittenCell {
  readonly text: string;
  /** With its quotes, without the blanks around it. */
  readonly raw: string;
  readonly before: string;
  readonly after: string;
}

export interface WrittenTable {
  readonly delimiter: string;
  readonly cells: readonly (readonly WrittenCell[])[];
  readonly source: string;
}

/** Everything a reader of tables can trip over, beside plain letters and a letter of two units. */
const awkward = [',', ';', '\t', '"', '\n', '\r', '\r\n', ' ', 'a', 'B', '7', 'é', '♯', '𝄞'];
const text = fc.string({ unit: fc.constantFrom(...awkward), maxLength: 6 });
const blanks = fc.constantFrom('', '', '', ' ', '   ');

/** RFC 4180, section 2: rules 5 to 7 say what needs quotes; everything may have them. */
const needsQuotes = (text: string): boolean => /[,;\t"\r\n]/u.test(text) || text !== text.trim();

const cell = (content: fc.Arbitrary<string>): fc.Arbitrary<WrittenCell> =>
  fc
    .record({ text: content, quoted: fc.boolean(), before: blanks, after: blanks })
    .map((drawn) => ({
      text: drawn.text,
      raw:
        drawn.quoted || needsQuotes(drawn.text)
          ? `"${drawn.text.replaceAll('"', '""')}"`
          : drawn.text,
      before: drawn.before,
      after: drawn.after,
    }));

const row = (width: number, content: fc.Arbitrary<string>): fc.Arbitrary<readonly WrittenCell[]> =>
  fc.array(cell(content), { minLength: width, maxLength: width });

/**
 * A table with a row of at least two headings, so that its delimiter can be told, and rows of any
 * length; line ends may differ from row to row and miss at the end.
 */
export const writtenTable: fc.Arbitrary<WrittenTable> = fc
  .record({
    delimiter: fc.constantFrom(',', ';', '\t'),
    headings: fc
      .integer({ min: 2, max: 4 })
      .chain((width) => row(width, fc.constantFrom('key', 'a;b,', 'c\td;', 'bytes', 'x\ny,', ''))),
    rows: fc.array(
      fc.integer({ min: 1, max: 5 }).chain((width) => row(width, text)),
      { maxLength: 8 },
    ),
    ends: fc.array(fc.constantFrom('\n', '\r\n', '\r', '\n\n', '\r\n\r\n'), {
      minLength: 9,
      maxLength: 9,
    }),
    ended: fc.boolean(),
  })
  .map(({ delimiter, headings, rows, ends, ended }) => {
    const cells = [headings, ...rows];
    const lines = cells.map((line) =>
      line.map(({ before, raw, after }) => before + raw + after).join(delimiter),
    );
    const source = lines
      .map((line, i) => line + (i < lines.length - 1 || ended ? (ends[i] ?? '\n') : ''))
      .join('');
    return { delimiter, cells, source };
  });
