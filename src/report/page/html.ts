/** Text that is HTML already: the template puts it in as it is. */
export class Html {
  readonly text: string;

  /** Only for text that was made here: what comes from files goes through {@link markup}. */
  constructor(text: string) {
    this.text = text;
  }
}

/** What may stand in a template: anything but {@link Html} is text, and is escaped. */
export type Value = Html | string | number | null | false | readonly Value[];

/** The characters that end or begin something in text and in quoted attributes (HTML, section 13.1). */
const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

const escaped = (text: string): string =>
  text.replace(/[&<>"']/g, (character) => escapes[character] ?? '');

const textOf = (value: Value): string => {
  if (value === null || value === false) return '';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return escaped(value);
  return value instanceof Html ? value.text : value.map(textOf).join('');
};

/**
 * HTML from a template: every value is escaped unless it is {@link Html} itself. Attributes that hold
 * text stand in double quotes.
 *
 * @example markup`<b>${'Hn <1>'}</b>`.text // '<b>Hn &lt;1&gt;</b>'
 */
export const markup = (strings: TemplateStringsArray, ...values: readonly Value[]): Html =>
  new Html(strings.reduce((text, string, i) => `${text}${textOf(values[i - 1] ?? null)}${string}`));

/** Pieces with something between each two. */
export const joined = (pieces: readonly Value[], between: string): Html =>
  new Html(pieces.map(textOf).join(escaped(between)));
