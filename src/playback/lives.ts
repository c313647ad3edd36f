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
    for (const other of this.#moments) if (covers(other, moment)) return;
    let left = 0;
    let neighbour = -1;
    for (const other of this.#moments) {
      if (covers(moment, other)) continue;
      if (neighbour < 0 && joinable(other, moment)) neighbour = left;
      this.#moments[left++] = other;
    }
    if (left < this.#moments.length) this.#moments.length = left;
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
    const sorted = moments
      .map((moment) => ({ moment, text: textOf(moment) }))
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

const textOf = ({ doubt, after, hold, ranges }: Moment): string => {
  let text = `${String(doubt)},${String(after)},${String(hold)}`;
  for (const [lo, hi] of ranges) text += `,${String(lo)},${String(hi)}`;
  return text;
};

const hull = (a: Range, b: Range): Range => [Math.min(a[0], b[0]), Math.max(a[1], b[1])];

const inside = (inner: Range, outer: Range): boolean =>
  inner[0] >= outer[0] && inner[1] <= outer[1];

/** Whatever `b` lets sound, `a` does too, under no more doubts. */
const covers = (a: Moment, b: Moment): boolean => {
  if (a === b) return true;
  if (!within(a.doubt, b.doubt) || a.after > b.after) return false;
  if (a.hold !== b.hold && a.hold !== anyHold) return false;
  for (let i = 0; i < b.ranges.length; i++) if (!inside(b.ranges[i]!, a.ranges[i]!)) return false;
  return true;
};

/** Alike but for one signal, and there they meet: together they are one stretch. */
const joinable = (a: Moment, b: Moment): boolean => {
  if (a.doubt !== b.doubt || a.after !== b.after || a.hold !== b.hold) return false;
  let apart = 0;
  for (let i = 0; i < a.ranges.length; i++) {
    const [x, y] = [a.ranges[i]!, b.ranges[i]!];
    if (x[0] === y[0] && x[1] === y[1]) continue;
    if (++apart > 1 || x[0] > y[1] || y[0] > x[1]) return false;
  }
  return apart === 1;
};
