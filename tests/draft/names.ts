import fc from 'fast-check';

/** Words as they stand in the names of tracks, and what stands between them. */
const word = fc.constantFrom(
  ...[
    'Vln',
    'Vc',
    'Hn',
    'Célesta',
    'Perc',
    'Taiko',
    'Klavier',
    'Str',
    'hi',
    'lo',
    'Click',
    'Guide',
  ],
  ...['leg', 'sus', 'Stac', 'pizz', 'TREM', 'con sord', 'sul pont', 'fx', 'hit', 'sord trem'],
  ...['1', '2', '01', 'a4', 'II', '1A', 'desk 2', 'KS', 'switches', 'key switch', 'solo'],
  ...['null', 'true', '{art}', '*', '\\', '#', '"', "'", ': ', '- ', '&a', '!b', '\t', 'Große'],
);
const between = fc.constantFrom(' ', ' ', ' ', '', '_', ' – ', '-', ' (', ') ', '/', '.', '  ');

/** A name such as people and exporters write. */
const usual = fc
  .array(fc.tuple(word, between), { minLength: 1, maxLength: 5 })
  .map((pairs) => pairs.flat().slice(0, -1).join(''));

/** A name out of any characters, some long. */
const odd = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.string({ unit: 'grapheme', maxLength: 30 }),
  fc
    .tuple(usual, fc.string({ unit: 'grapheme', maxLength: 3 }), fc.integer({ min: 1, max: 400 }))
    .map(([start, end, times]) => `${start}${end.repeat(times)}`),
);

/** Templates look at 2 000 characters of a name; tests that compare names need no more. */
export const trackName = fc
  .oneof({ weight: 4, arbitrary: usual }, { weight: 1, arbitrary: odd })
  .map((name) => name.slice(0, 1_900));
