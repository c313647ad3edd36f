import type { Program, Start } from '../../instruments/program.ts';
import type { RoutedSource } from '../../template/routed.ts';
import { contains, type Range } from '../../terms/range.ts';
import type { Lane } from '../lanes.ts';
import { limitsOf, middles, sevenBits, type Limits } from './bands-of-choice.ts';
import { knobOf, type Demand, type Knob } from './demands.ts';
import { valuesFor } from './knob-values.ts';
import { notesBefore } from './notes-before.ts';
import type { Performer } from './performer.ts';
import type { Before } from './situation.ts';
import { wireController, wireKey, wireVelocity } from './wire.ts';

/** Values to try, of which the first of each is tried first. */
export interface Choices {
  readonly source: RoutedSource;
  readonly lane: Lane;
  readonly keys: readonly number[];
  readonly velocities: readonly number[];
  readonly knobs: ReadonlyMap<Knob, readonly number[]>;
  readonly before: readonly (readonly Before[])[];
}

/** Values to try for a start on a lane; null: something that it asks for can't be sent. */
export const choicesFor = (
  performer: Performer,
  start: Start,
  demand: Demand,
  source: RoutedSource,
  lane: Lane,
): Choices | null => {
  const { program, asked } = performer.plain;
  const limits = limitsOf(program);
  const { transform } = source;
  const knobs = new Map<Knob, readonly number[]>();
  const isChange = start.event === 'change';
  const keys = isChange
    ? changeValues(program, start, demand, limits)
    : middles([start.keys], limits.keys, sevenBits).filter(
        (key) => wireKey(transform, key) !== null,
      );
  const velocities = middles([start.velocities], limits.velocities, [
    isChange ? 0 : 1,
    127,
  ]).flatMap((velocity) => nearVelocity(velocity, start.velocities, source));
  for (const index of asked) {
    const signal = program.signals[index]!;
    const knob = knobOf(signal, index);
    if (knobs.has(knob)) continue;
    const wanted = demand.get(knob);
    const values = valuesFor(performer, signal, index, wanted, limits, source, lane);
    if (values === null) return null;
    if (values.length > 0) knobs.set(knob, values);
  }
  for (const number of performer.plain.pedals.keys()) {
    const knob: Knob = `controller ${number}`;
    if (!knobs.has(knob) && wireController(transform, number) !== null) knobs.set(knob, [0]);
  }
  if (isChange) knobs.delete(knobOf(program.signals[start.change!]!, start.change!));
  if (keys.length === 0 || velocities.length === 0) return null;
  const before = notesBefore(performer, demand, limits, source, keys[0]!);
  return before === null ? null : { source, lane, keys, velocities, knobs, before };
};

const changeValues = (
  { signals }: Program,
  start: Start,
  demand: Demand,
  limits: Limits,
): readonly number[] => {
  const knob = knobOf(signals[start.change!]!, start.change!);
  const whole: Range = knob === 'bend' ? [-8192, 8191] : sevenBits;
  const asked = demand.get(knob) ?? [whole];
  return middles(asked, limits.knobs.get(knob) ?? [], whole).filter((value) =>
    contains(start.keys, value),
  );
};

/** The nearest velocity that some written one arrives as. */
const nearVelocity = (
  velocity: number,
  [lo, hi]: Range,
  { transform }: RoutedSource,
): readonly number[] => {
  for (let off = 0; off <= 127; off++) {
    for (const near of [velocity - off, velocity + off]) {
      if (near < Math.max(lo, 0) || near > Math.min(hi, 127)) continue;
      if (near === 0 || wireVelocity(transform, near) !== null) return [near];
    }
  }
  return [];
};
