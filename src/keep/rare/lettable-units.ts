import type { Instrument } from '../../instruments/instrument.ts';
import type { Grain } from '../../template/player.ts';
import { partnersOf } from '../keep-set.ts';
import { unitsOf } from '../units.ts';

/**
 * What a player can let go of by itself: per start a number, alike for what goes together. That is a
 * unit of the player, and with it those that hold the other stereo halves of its samples.
 */
export const lettableUnits = (instrument: Instrument, grain: Grain): readonly number[] => {
  const { starts } = instrument.program;
  const unitOf =
    grain === 'sample' ? starts.map(({ zone }) => zone) : unitsOf(instrument, grain).ofStart;
  const halves = partnersOf(instrument);
  if (halves.size === 0) return unitOf;
  const groups = new Groups();
  if (grain === 'sample') {
    for (const [zone, others] of halves) for (const other of others) groups.join(zone, other);
    return unitOf.map((unit) => groups.of(unit));
  }
  // A half stays with the other in the articulations that play it, and goes with it there.
  const places = new Map<string, number[]>();
  const place = (articulation: number, zone: number): string =>
    `${String(articulation)} ${String(zone)}`;
  starts.forEach(({ articulation, zone }, i) => {
    const at = place(articulation, zone);
    const units = places.get(at);
    if (units === undefined) places.set(at, [unitOf[i]!]);
    else if (!units.includes(unitOf[i]!)) units.push(unitOf[i]!);
  });
  starts.forEach(({ articulation, zone }, i) => {
    for (const other of halves.get(zone) ?? []) {
      for (const unit of places.get(place(articulation, other)) ?? []) {
        groups.join(unitOf[i]!, unit);
      }
    }
  });
  return unitOf.map((unit) => groups.of(unit));
};

/** Numbers that belong together. */
class Groups {
  readonly #above = new Map<number, number>();

  of(one: number): number {
    let top = one;
    for (let up = this.#above.get(top); up !== undefined; up = this.#above.get(top)) top = up;
    if (top !== one) this.#above.set(one, top);
    return top;
  }

  join(a: number, b: number): void {
    const [first, second] = [this.of(a), this.of(b)];
    if (first !== second) this.#above.set(Math.max(first, second), Math.min(first, second));
  }
}
