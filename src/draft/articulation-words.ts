/**
 * How the trade writes articulations in track names: the name that is drafted, then the words and
 * abbreviations that mean it, folded. Common practice, from memory; no standard says it. Words that
 * are as often an instrument, a size or a place are left out: `ten` (tenor), `vib` (vibraphone), `tr`
 * (trumpet), `oh` (overhead microphones), `hi`, `lo`, `solo`.
 */
const spellings: Readonly<Record<string, readonly string[]>> = {
  // Long notes
  legato: ['leg', 'lega', 'legato'],
  sustain: ['sus', 'suss', 'sust', 'sustain', 'sustains', 'sustained'],
  sostenuto: ['sost', 'sostenuto'],
  long: ['lng', 'long', 'longs'],
  tenuto: ['tenuto'],
  portato: ['portato'],
  portamento: ['porta', 'portamento'],
  glissando: ['gliss', 'glissando', 'glissandi'],
  // Short notes
  short: ['short', 'shorts', 'shrt'],
  staccato: ['stac', 'stacc', 'stacs', 'staccs', 'stacato', 'staccato', 'staccati'],
  staccatissimo: ['staccatiss', 'staccatissimo', 'stacss'],
  spiccato: ['spic', 'spicc', 'spics', 'spiccs', 'spiccato'],
  marcato: ['marc', 'marcato', 'marcs'],
  martele: ['mart', 'martele'],
  detache: ['det', 'detache'],
  accent: ['accent', 'accents'],
  sforzando: ['sfz', 'sforz', 'sforzando'],
  'forte-piano': ['fp', 'fortepiano'],
  ricochet: ['ricochet', 'jete'],
  repetition: ['rep', 'reps', 'repetition', 'repetitions'],
  runs: ['run', 'runs'],
  // Strings
  arco: ['arco'],
  pizzicato: ['pizz', 'pizzs', 'pizzicato', 'pizzicati'],
  'bartok pizzicato': ['bartok', 'bartok pizz', 'bart pizz', 'snap pizz'],
  'col legno': ['col legno', 'c legno', 'legno', 'col leg', 'battuto'],
  'sul ponticello': ['sul pont', 'sulpont', 'pont', 'ponticello', 'sul ponticello', 's pont'],
  'sul tasto': ['sul tasto', 'sultasto', 'tasto'],
  flautando: ['flaut', 'flautando', 'flautato'],
  harmonics: ['harm', 'harms', 'harmonic', 'harmonics', 'flageolet'],
  'con sordino': ['con sord', 'con sords', 'con sordino', 'sord', 'sords', 'sordino'],
  'senza sordino': ['senza sord', 'senza sordino', 'senza'],
  tremolo: ['trem', 'trems', 'tremolo', 'tremoli'],
  'measured tremolo': ['meas trem', 'measured trem', 'measured tremolo'],
  // Strings and winds
  trill: ['trill', 'trills', 'trl'],
  'half-tone trill': ['trill ht', 'trills ht', 'ht trill', 'half trill', 'trill m2', 'min trill'],
  'whole-tone trill': ['trill wt', 'trills wt', 'wt trill', 'whole trill', 'maj trill'],
  'non vibrato': ['non vib', 'nonvib', 'nv', 'no vib', 'non vibrato', 'senza vib'],
  'molto vibrato': ['molto vib', 'molto vibrato'],
  vibrato: ['vibrato', 'espr', 'espressivo'],
  ordinario: ['ord', 'ordinario', 'norm', 'normale'],
  muted: ['mute', 'muted', 'mutes'],
  open: ['open'],
  stopped: ['stopped'],
  'flutter-tongue': ['flutter', 'flutt', 'flz', 'frullato', 'flutter tongue', 'fluttertongue'],
  'double tongue': ['dbl tongue', 'double tongue'],
  'triple tongue': ['triple tongue', 'trpl tongue'],
  falls: ['falls'],
  rips: ['rip', 'rips'],
  bends: ['bend', 'bends'],
  // Swells
  swell: ['swell', 'swells'],
  crescendo: ['cresc', 'crescendo'],
  diminuendo: ['dimin', 'diminuendo', 'decresc', 'decrescendo'],
  // Percussion
  hit: ['hit', 'hits'],
  roll: ['roll', 'rolls'],
  flam: ['flam', 'flams'],
  rimshot: ['rimshot', 'rimshots', 'rim shot'],
  damped: ['damped', 'choked', 'secco'],
  bowed: ['bowed'],
  scrape: ['scrape', 'scrapes'],
  // Voices: what is sung
  ah: ['ah', 'ahs', 'aah', 'aahs'],
  oo: ['oo', 'oos', 'ooh', 'oohs'],
  mm: ['mm', 'mms', 'hum', 'hums'],
  // All the rest
  effects: ['fx', 'sfx', 'efx', 'effects'],
};

/** Words of the longest spelling. */
const mostWords = 2;

const names: ReadonlyMap<string, string> = new Map(
  Object.entries(spellings).flatMap(([name, words]) => words.map((word) => [word, name] as const)),
);

/** A run of words that means an articulation. */
export interface Articulation {
  readonly name: string;
  /** How many words say it. */
  readonly words: number;
}

/**
 * The articulation that begins with word `at`, by the longest spelling; null when none does.
 *
 * @param words folded
 * @example articulationAt(['vln', 'con', 'sord'], 1) // { name: 'con sordino', words: 2 }
 */
export const articulationAt = (words: readonly string[], at: number): Articulation | null => {
  for (let count = mostWords; count > 0; count -= 1) {
    const name = names.get(words.slice(at, at + count).join(' '));
    if (name !== undefined && at + count <= words.length) return { name, words: count };
  }
  return null;
};
