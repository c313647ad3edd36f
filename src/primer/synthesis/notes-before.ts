import type { RoutedSource } from '../../template/routed.ts';
import { contains, type Range } from '../../terms/range.ts';
import { middles, sevenBits, type Limits } from './bands-of-choice.ts';
import type { Demand } from './demands.ts';
import type { Performer } from './performer.ts';
import type { Before } from './situation.ts';
import { wireKey, wireVelocity } from './wire.ts';

/** Most keys that are held ahead of a note. */
const mostHeld = 6;

/** Notes ahead of the note: what it asks of keys held and of the note before; null: impossible. */
export const notesBefore = (
  performer: Performer,
  demand: Demand,
  limits: Limits,
  { transform }: RoutedSource,
  key: number,
): readonly (readonly Before[])[] | null => {
  const { signals } = performer.plain.program;
  const previous = demand.get('previous-key');
  const strength = demand.get('previous-velocity');
  let count = 0;
  let most = mostHeld;
  let among: readonly Range[] = [sevenBits];
  let isAsked = false;
  for (const [index, signal] of signals.entries()) {
    if (signal.kind !== 'held') continue;
    const wanted = demand.get(`held ${index}`);
    if (wanted === undefined) continue;
    isAsked = true;
    const counts = signal.own && signal.keys.some((range) => contains(range, key)) ? 1 : 0;
    const lo = Math.max(0, Math.min(...wanted.map(([from]) => from)) - counts);
    const hi = Math.max(...wanted.map(([, to]) => to)) - counts;
    if (hi < 0 || lo > mostHeld) return null;
    if (lo > count) among = signal.keys;
    count = Math.max(count, lo);
    most = Math.min(most, hi);
  }
  if (most < count) return null;
  const isReachable = (one: number): boolean => one !== key && wireKey(transform, one) !== null;
  const keysIn = (ranges: readonly Range[]): readonly number[] =>
    ranges
      .flatMap(([lo, hi]) =>
        Array.from({ length: Math.min(hi, 127) - Math.max(lo, 0) + 1 }, (_, i) => lo + i),
      )
      .filter(isReachable)
      .sort((a, b) => Math.abs(a - key) - Math.abs(b - key));
  const velocities = middles(strength ?? [[1, 127]], limits.velocities, [1, 127]).filter(
    (one) => wireVelocity(transform, one) !== null,
  );
  if (velocities.length === 0) return null;
  const strike = (one: number, velocity: number, isHeld: boolean): Before => ({
    key: one,
    velocity,
    isHeld,
  });
  if (count > 0) {
    const keys = keysIn(among).filter(
      (one) => previous?.some((range) => contains(range, one)) ?? true,
    );
    if (keys.length < count) return null;
    return velocities.flatMap((velocity) =>
      Array.from({ length: Math.min(keys.length - count + 1, 24) }, (_, from) =>
        keys.slice(from, from + count).map((one) => strike(one, velocity, true)),
      ),
    );
  }
  if (previous === undefined && strength === undefined) return [[]];
  const asked = previous ?? [sevenBits];
  const own = asked.some((range) => contains(range, key)) ? [key] : [];
  const keys = [...keysIn(asked), ...own].slice(0, 24);
  const notes = velocities.flatMap((velocity) =>
    keys.flatMap((one) => [
      [strike(one, velocity, false)],
      ...(isAsked || one === key ? [] : [[strike(one, velocity, true)]]),
    ]),
  );
  return notes.length === 0 ? null : notes;
};
