import type { Instrument } from '../../instruments/instrument.ts';
import type { Start } from '../../instruments/program.ts';
import { plain } from '../../terms/doubt.ts';
import { intersect, type Range } from '../../terms/range.ts';
import type { WhyZone } from './why.ts';

type Answers = Omit<WhyZone, 'articulationNames' | 'articulationNotes'>;

/** Where the instrument's definition is not at hand. */
export const unknownAnswers: Answers = { keys: null, velocities: null, controllers: [] };

const all: Range = [0, 127];

/** What zones of an instrument answer to. @param zones indices into the instrument's */
export const zoneAnswers = (
  { program, articulations }: Instrument,
  zones: ReadonlySet<number>,
): ReadonlyMap<number, Answers> => {
  const starts = new Map<number, Start[]>([...zones].map((zone) => [zone, []]));
  for (const start of program.starts) starts.get(start.zone)?.push(start);
  const layers = new Map<number, Answers['controllers'][]>([...zones].map((zone) => [zone, []]));
  for (const { zones: own, controllers } of articulations.flatMap((one) => one.layers)) {
    for (const zone of own) layers.get(zone)?.push(controllers);
  }
  return new Map(
    [...zones].map((zone) => {
      const byKey = starts.get(zone)!.filter(({ event }) => event !== 'change');
      const certain = byKey.filter(({ doubt }) => doubt === plain);
      const own = certain.length > 0 ? certain : byKey;
      return [
        zone,
        {
          keys: hull(own.map(({ keys }) => keys)),
          velocities: hull(own.map(({ velocities }) => velocities)),
          controllers: ofLayers(layers.get(zone)!),
        },
      ];
    }),
  );
};

/** From the lowest to the highest; null of nothing. */
const hull = (ranges: readonly Range[]): Range | null =>
  ranges
    .map((range) => intersect(range, all))
    .filter((range) => range !== null)
    .reduce<Range | null>(
      (known, [lo, hi]) =>
        known === null ? [lo, hi] : [Math.min(known[0], lo), Math.max(known[1], hi)],
      null,
    );

/** A zone that is in several layers asks for a controller only where all of them do. */
const ofLayers = (layers: readonly Answers['controllers'][]): Answers['controllers'] => {
  const [first = [], ...others] = layers;
  return first
    .flatMap(({ number }) => {
      const ranges = [first, ...others].map(
        (layer) => layer.find((one) => one.number === number)?.range ?? all,
      );
      const range = hull(ranges);
      return range === null || (range[0] <= 0 && range[1] >= 127) ? [] : [{ number, range }];
    })
    .sort((a, b) => a.number - b.number);
};
