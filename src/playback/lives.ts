import { within } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import { anyHold, type Moment } from './zone-usage.ts';

/** Collects what a voice goes through; neighbouring moments along one signal are joined. */
export class Life {
  #moments: Moment[] = [];

  get moments(): readonly Moment[] {
    return this.#moments;
  }

  add(moment: Moment): void {
    if (this.#moments.some((other) => covers(other, moment))) return;
    this.#moments = this.#moments.filter((other) => !covers(moment, other));
    const neighbour = this.#moments.findIndex((other) => joinable(other, moment));
    if (neighbour < 0) this.#moments.push(moment);
    else {
      const [other] = this.#moments.splice(neighbour, 1);
      this.add({ ...moment, ranges: moment.ranges.map((r, i) => hull(r, other!.ranges[i]!)) });
    }
  }
}

/** Lists of moments, each kept once. */
export class LifeTable {
  readonly all: (readonly Moment[])[] = [];
  readonly #byText = new Map<string, number>();

  indexOf(moments: readonly Moment[]): number {
    const sorted = [...moments]
      .map((moment) => ({
        moment,
        text: JSON.stringify([moment.doubt, moment.after, moment.hold, moment.ranges]),
      }))
      .sort((a, b) => (a.text < b.text ? -1 : 1));
    const text = sorted.map((one) => one.text).join(' ');
    let index = this.#byText.get(text);
    if (index === undefined) {
      index = this.all.length;
      this.all.push(sorted.map(({ moment }) => moment));
      this.#byText.set(text, index);
    }
    return index;
  }
}

const hull = (a: Range, b: Range): Range => [Math.min(a[0], b[0]), Math.max(a[1], b[1])];

const inside = (inner: Range, outer: Range): boolean =>
  inner[0] >= outer[0] && inner[1] <= outer[1];

/** Whatever `b` lets sound, `a` does too, under no more doubts. */
const covers = (a: Moment, b: Moment): boolean =>
  within(a.doubt, b.doubt) &&
  a.after <= b.after &&
  (a.hold === b.hold || a.hold === anyHold) &&
  b.ranges.every((range, i) => inside(range, a.ranges[i]!));

/** Alike but for one signal, and there they meet: together they are one stretch. */
const joinable = (a: Moment, b: Moment): boolean => {
  if (a.doubt !== b.doubt || a.after !== b.after || a.hold !== b.hold) return false;
  const apart = a.ranges.flatMap((range, i) => {
    const other = b.ranges[i]!;
    return range[0] === other[0] && range[1] === other[1] ? [] : [[range, other] as const];
  });
  return apart.length === 1 && apart.every(([x, y]) => x[0] <= y[1] && y[0] <= x[1]);
};
