import type { InstrumentBytes, PlanInstrument } from '../keep/plan.ts';
import { formatBytes, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';

export type Basis = InstrumentBytes['basis'];

/** What stands beside a figure in a table. */
export const basisSign: Readonly<Record<Basis, string>> = { computed: 'c', fitted: 'f', read: 'r' };

const order: readonly Basis[] = ['computed', 'fitted', 'read'];

/** Sentences that explain the signs of those bases that occur; no instrument, no sentence. */
export const basisSentences = (
  instruments: readonly PlanInstrument[],
  look: Look,
): readonly string[] =>
  order.flatMap((basis) => {
    const own = instruments.filter(
      ({ bytes, zonesKept }) => zonesKept > 0 && bytes.basis === basis,
    );
    return own.length === 0 ? [] : [`${basisSign[basis]}: ${explanation[basis](own, look)}`];
  });

const explanation: Readonly<Record<Basis, (own: readonly PlanInstrument[], look: Look) => string>> =
  {
    computed: () =>
      'computed from the sizes of the samples (length x channels x bytes per sample point) by the rule given for the player. Its display may differ.',
    fitted: (own, look) => `computed, then fitted to ${readings(own)}${worst(own, look)}.`,
    read: () => "read off the player's display with just this loaded.",
  };

const readings = (own: readonly PlanInstrument[]): string => {
  const counts = own.map(({ bytes }) => bytes.readings);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  return least === most
    ? `${plural(most, 'reading')} of the player's display`
    : `${String(least)} to ${String(most)} readings of the player's display`;
};

/** Of one instrument it is that; of several, the one whose readings agree the least. */
const worst = (own: readonly PlanInstrument[], look: Look): string => {
  const single = own.some(({ bytes }) => bytes.readings === 1)
    ? '; a single reading leaves a range'
    : '';
  const several = own.filter(({ bytes }) => bytes.readings > 1);
  const [first] = several.toSorted((a, b) => b.bytes.residual - a.bytes.residual);
  if (first === undefined) return single;
  const whose = several.length === 1 ? '' : ` (${nameInText(first.id, look)})`;
  return `, from which it differs by ${formatBytes(first.bytes.residual)} at the most${whose}${single}`;
};
