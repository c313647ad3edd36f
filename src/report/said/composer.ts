import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import type { Overview } from '../../overview/overview.ts';
import { keyLabel } from '../../terms/key.ts';
import { dynamicNames, eighth, rangeText } from './dynamics.ts';
import { lostOf } from './lost.ts';
import { listedSaid, said, type Said } from './said.ts';

/** Instruments in a row that are not loaded; more are counted. */
const mostGone = 60;

/** What the limits that follow mean, and how far they go; of nothing nothing is promised. */
export const promiseSaid = ({ instruments }: Pick<Overview, 'instruments'>): Said =>
  instruments.every(({ zonesKept }) => zonesKept === 0)
    ? ['Nothing stays loaded, so nothing can be written.']
    : said`A note within these limits starts nothing but what stays loaded; where its end may ask for a release sound that is gone, the line says so. A controller has to be within them when the note begins and as long as it sounds, and some time before: a leap just ahead of a note is a doubt to ${{ command: 'keepset check' }}. What a controller starts by itself is told by the maps of the instruments. In brackets: the tracks that play it.`;

/** A sentence that begins with a word that stands out. */
export interface TitledSaid {
  readonly title: string;
  readonly said: Said;
}

/** Instruments of which nothing stays; null: there is none. */
export const notLoadedSaid = ({
  instruments,
}: Pick<Overview, 'instruments'>): TitledSaid | null => {
  const gone = instruments.filter(({ zonesKept }) => zonesKept === 0).map(({ id }) => id);
  return gone.length === 0
    ? null
    : { title: 'Not loaded at all:', said: said`${listedSaid(gone, mostGone)}.` };
};

/**
 * What nobody can write for an instrument, without full stops.
 *
 * @param copies of which it is told; null: all of the instrument
 * @param gone articulations of which no zone that a note starts stays
 */
export const lostSaid = (
  instrument: OverviewInstrument,
  copies: readonly string[] | null,
  gone: readonly string[],
): readonly Said[] => {
  const lost = lostOf(instrument, copies, gone);
  return [
    ...(lost.unasked.length > 0
      ? [said`${listedSaid(lost.unasked)}: loaded, but no track leads to it`]
      : []),
    ...(lost.gone.length > 0 ? [said`${listedSaid(lost.gone)}: gone`] : []),
  ];
};

/** What the words of the limits mean. */
export const legendSaid = ({ middleC }: Pick<Overview, 'middleC'>): Said => {
  const eighths = dynamicNames.map((name, i) => `${name} ${rangeText(eighth(i))}`).join(', ');
  return said`Middle C is ${keyLabel(60, middleC)}. Dynamics are even eighths of the values 1 to 127, which is common practice and no standard: ${eighths}. Only dynamics that are there in full are named; the exact values stand in brackets, as they reach the instrument. Limits joined by "together with" hold while all of them are kept at once. In part: which notes start only what stays depends on all that is named together.`;
};
