/**
 * Text as it stands, whatever is in it (CommonMark 0.31.2, section 2.4: a backslash takes the
 * meaning from a sign). Not every sign is escaped: who gets the result in a mail reads the source.
 */

/**
 * Signs that mean something anywhere in a line, or that wikis and mail programs give a meaning. An
 * underscore between two letters means nothing (CommonMark, section 6.2, rule 2), nor does `<` before
 * a figure (section 6.6): file names and small sizes stay readable.
 */
const anywhere = /[\\`*[\]{}|~$@]|(?<![\p{L}\p{N}])_|_(?![\p{L}\p{N}])|<(?!\d)/gu;

/** The beginning of an entity (CommonMark, section 6 and 2.5). */
const entity = /&(?=#|[a-z])/giu;

/** What becomes a link by itself (GitHub Flavored Markdown 0.29, section 6.9). */
const address = /(?<=(?:https?|ftp|mailto|xmpp)):|(?<=www)\./giu;

/** Text inside a line. */
export const escapeText = (text: string): string =>
  text
    .replace(anywhere, String.raw`\$&`)
    .replace(entity, '\\&')
    .replace(address, String.raw`\$&`);

/**
 * What begins a block at the start of a line: a heading, a quotation, a list, a rule, an underline
 * (CommonMark, sections 4.1 to 4.3, 5.1 and 5.2).
 */
const opening = /^(?:[#>+=-]|\d{1,9}(?=[.)]))/u;

/** Text that begins a line. */
export const escapeStart = (text: string): string =>
  escapeText(text).replace(opening, (sign) => (/\d/.test(sign) ? `${sign}\\` : `\\${sign}`));

/** `#` at the end of a heading would be taken for its end (CommonMark, section 4.2). */
export const escapeHeading = (text: string): string =>
  escapeText(text).replace(/#+$/u, (signs) => '\\#'.repeat(signs.length));
