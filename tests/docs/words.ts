/** The words of a command line: quotation marks hold words together, as in a shell. */
export const wordsOf = (line: string): readonly string[] =>
  [...line.matchAll(/(?:'[^']*'|"[^"]*"|[^\s'"])+/g)].map(([word]) =>
    word.replace(
      /'([^']*)'|"([^"]*)"/g,
      (_, single?: string, double?: string) => single ?? double ?? '',
    ),
  );
