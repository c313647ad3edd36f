/**
 * What must not stand in a text as it is: it may act on a terminal (see `printable`), or YAML does not
 * allow it (YAML 1.2.2, section 5.1).
 */
const unprintable = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\ufffe\uffff]/gu;

/** The escapes of double-quoted scalars (YAML 1.2.2, section 5.7). */
const escape = (character: string): string => {
  const hex = (character.codePointAt(0) ?? 0).toString(16);
  if (hex.length <= 2) return `\\x${hex.padStart(2, '0')}`;
  return hex.length <= 4 ? `\\u${hex.padStart(4, '0')}` : `\\U${hex.padStart(8, '0')}`;
};

/**
 * Any text as a double-quoted scalar on one line. JSON strings are such scalars (YAML 1.2.2, section
 * 1.2); what JSON leaves as it is and a terminal would act on is escaped too.
 */
export const quoted = (text: string): string => JSON.stringify(text).replace(unprintable, escape);

/** One text, or several as a list on one line. */
export const quotedList = (texts: readonly string[]): string =>
  texts.length === 1 ? quoted(texts[0]!) : `[${texts.map(quoted).join(', ')}]`;

/** Plain scalars that mean only themselves: no sign with a meaning in YAML, no number, no bare word. */
const plain = /^[a-z][\w-]*(?: [\w#-]+)*$/iu;
const words = new Set(['null', 'true', 'false', 'yes', 'no', 'on', 'off', 'y', 'n']);

/** A text as a scalar: as it is where that is safe, else in quotes. */
export const scalar = (text: string): string =>
  plain.test(text) && !/(?:^| )#/u.test(text) && !words.has(text.toLowerCase())
    ? text
    : quoted(text);
