import type { Check, Miss } from '../keep/check/check.ts';
import { plainColors } from './colors.ts';
import { listed, span } from './csv.ts';
import { csvOf, doubtSets, notesByCue, placeColumns, type CsvColumn } from './csv-columns.ts';
import type { Look } from './look.ts';
import { barsWords, wayWords } from './ways-out.ts';

/** Everything, on one line. */
const look: Look = { colors: plainColors, ascii: true, width: null, details: true };

const yesNo = (value: boolean | null): string | null =>
  value === null ? null : value ? 'yes' : 'no';

const columns: readonly CsvColumn<Miss>[] = [
  { title: 'instrument', value: ({ instrument }) => instrument },
  { title: 'machine', value: ({ machine }) => machine },
  { title: 'copy', value: ({ copy }) => copy },
  { title: 'zone', value: ({ zone }) => zone },
  { title: 'stable-name', value: ({ key }) => key },
  { title: 'articulations', value: ({ articulations }) => listed(articulations) },
  { title: 'samples', value: ({ samples }) => listed(samples) },
  { title: 'silent', value: ({ silent }) => yesNo(silent) },
  { title: 'preset-only', value: ({ isPreset }) => yesNo(isPreset) },
  { title: 'doubts', value: ({ doubts }) => doubtSets(doubts) },
  { title: 'notes', value: ({ notes }) => notes },
  { title: 'doubtful-notes', value: ({ doubtfulNotes }) => doubtfulNotes },
  { title: 'cues', value: ({ cues }) => notesByCue(cues) },
  { title: 'keys', value: ({ keys }) => listed(keys.map(span)) },
  {
    title: 'velocities',
    value: ({ velocities }) => (velocities === null ? null : span(velocities)),
  },
  { title: 'unit', value: ({ unit }) => unit },
  { title: 'bytes', value: ({ bytes }) => bytes },
  { title: 'fits', value: ({ fits }) => yesNo(fits) },
  ...placeColumns<Miss>(({ places }) => places[0]),
  { title: 'bars', value: ({ bars }) => listed(bars.map((each) => barsWords(each, look))) },
  { title: 'ways', value: ({ ways }) => listed(ways.map((way) => wayWords(way, look))) },
];

/**
 * What is missing, with a row for each zone, in the order of the JSON; the headings alone where
 * nothing is. Rows of an instrument with one `unit` come back together; `bytes` and `fits` are those
 * of the unit by itself.
 */
export const checkCsv = ({ misses }: Check): string => csvOf(columns, misses);
