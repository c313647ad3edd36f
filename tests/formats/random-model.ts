import fc from 'fast-check';
import type { Limits, Model, ModelFade, ModelSample, ModelZone } from './model.ts';

/** What the formats that are compared can all say. */
export interface ModelOptions {
  readonly articulations: boolean;
  readonly fades: boolean;
  readonly releases: boolean;
}

/** Keys that zones and cues use: few, so that many notes meet a limit. */
export const keySpan: Limits = [57, 68];

/** Above and below them lie keys of {@link watchedKeys} that nothing presses. */
export const switchKeys = [24, 25, 27] as const;

export const watchedKeys: Limits = [22, 29];

/** The modulation wheel, a controller that begins at 127, and one that begins at 0. */
export const fadeControllers = [1, 11, 21] as const;

const limits = (lo: number, hi: number): fc.Arbitrary<Limits> =>
  fc
    .tuple(fc.integer({ min: lo, max: hi }), fc.integer({ min: lo, max: hi }))
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)]);

const velocities: fc.Arbitrary<Limits> = fc.oneof(
  fc.constant([1, 127] as const),
  limits(1, 127),
  fc.constantFrom([1, 63] as const, [64, 127] as const),
);

/** Limits that leave out something; one that leaves out nothing is no fade. */
const fadeLimits: fc.Arbitrary<Limits> = fc.oneof(
  limits(0, 127).filter(([lo, hi]) => lo > 0 || hi < 127),
  fc.constantFrom([0, 0] as const, [1, 127] as const, [0, 63] as const, [64, 127] as const),
);

const fades: fc.Arbitrary<readonly ModelFade[]> = fc
  .subarray([...fadeControllers], { maxLength: 2 })
  .chain((controllers) =>
    fc.tuple(
      ...controllers.map((controller) => fadeLimits.map((limits) => ({ controller, limits }))),
    ),
  );

const zone = (options: ModelOptions): fc.Arbitrary<Omit<ModelZone, 'sample'>> =>
  fc.record({
    // Now and then a switch lies in the range of a zone, and both switches and plays.
    keys: options.articulations
      ? fc.oneof({ weight: 5, arbitrary: limits(...keySpan) }, limits(23, 28))
      : limits(...keySpan),
    velocities,
    articulation: options.articulations
      ? fc.option(fc.nat(switchKeys.length - 1))
      : fc.constant(null),
    fades: options.fades ? fc.oneof(fc.constant([]), fades) : fc.constant([]),
    starts: options.releases
      ? fc.constantFrom('note-on' as const, 'note-on' as const, 'release' as const, 'note-off')
      : fc.constant('note-on' as const),
  });

const sample: fc.Arbitrary<ModelSample> = fc.record({
  frames: fc.integer({ min: 64, max: 2000 }),
  rate: fc.constantFrom(22_050, 44_100, 48_000),
});

/** A zone and its sample: one of its own, or that of a zone before it. */
const zoneWithSample = (options: ModelOptions) =>
  fc.tuple(zone(options), fc.option(fc.nat(20), { freq: 3 }), sample);

/** One to nine zones. */
export const randomModel = (options: ModelOptions): fc.Arbitrary<Model> =>
  fc
    .array(zoneWithSample(options), {
      minLength: options.articulations ? switchKeys.length : 1,
      maxLength: 9,
      size: 'max',
    })
    .map((drafts): Model => {
      const samples: ModelSample[] = [];
      const zones = drafts.map(([draft, shared, own], i): ModelZone => ({
        ...draft,
        // Every switch has something to choose: what it switches else is no switch of the instrument.
        ...(options.articulations && i < switchKeys.length ? { articulation: i } : {}),
        sample: shared === null || i === 0 ? samples.push(own) - 1 : shared % samples.length,
      }));
      const articulations = options.articulations
        ? switchKeys.map((switchKey, i) => ({ name: `manner ${String(i)}`, switchKey }))
        : [];
      return { samples, articulations, zones };
    });
