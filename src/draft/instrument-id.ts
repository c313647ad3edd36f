/** Characters of an id, so that it can be read. */
const longest = 40;

/** Plain words that mean something else in YAML 1.2. */
const yamlWords = new Set(['null', 'true', 'false']);

/** Small letters and figures with hyphens, ASCII, a letter first. */
const kebab = (key: string): string => {
  const plain = key
    .slice(0, 4 * longest)
    .replaceAll('ß', 'ss')
    .replaceAll('æ', 'ae')
    .replaceAll('œ', 'oe')
    .replaceAll('ø', 'o')
    .replaceAll('ł', 'l')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-/, '')
    .slice(0, longest)
    .replace(/-$/, '');
  if (plain === '') return 'instrument';
  return /^\d/.test(plain) || yamlWords.has(plain) ? `instrument-${plain}` : plain;
};

/**
 * Makes ids for instruments, none of them twice and none of those taken.
 *
 * @example
 * const idFor = instrumentIds(['harp']);
 * idFor('perc kit'); // 'perc-kit'
 * idFor('harp'); // 'harp-2'
 */
export const instrumentIds = (taken: Iterable<string>): ((key: string) => string) => {
  const ids = new Set(taken);
  // Where counting stopped: it would take long from the start for a thousand names in other letters.
  const numbers = new Map<string, number>();
  return (key) => {
    const plain = kebab(key);
    let number = numbers.get(plain) ?? 1;
    let id = plain;
    while (ids.has(id)) {
      number += 1;
      id = `${plain}-${String(number)}`;
    }
    numbers.set(plain, number);
    ids.add(id);
    return id;
  };
};
