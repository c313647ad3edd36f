import type { Opcode } from '../text/document.ts';
import { leadingNumber } from '../text/numbers.ts';

/** The number of a curve goes up to here (the open SFZ documentation, "curve_index"). */
const lastIndex = 255;

const point = /^v(\d{1,3})$/u;

/**
 * The curve that a `<curve>` header draws: 128 values, on straight lines between the points given.
 * Without points it leads from 0 to 1 (the open SFZ documentation, "curve").
 *
 * @returns null without a number that an opcode could name
 */
export const curveOf = (
  opcodes: readonly Opcode[],
): { readonly index: number; readonly values: readonly number[] } | null => {
  let index: number | null = null;
  const points = new Map<number, number>();
  for (const { name, value } of opcodes) {
    const number = leadingNumber(value);
    if (number === null) continue;
    const at = Number(point.exec(name)?.[1] ?? NaN);
    if (at <= 127) points.set(at, number);
    else if (name === 'curve_index') index = Math.trunc(number);
  }
  if (index === null || index < 0 || index > lastIndex) return null;
  return { index, values: linearPoints(points) };
};

/** 128 values on straight lines between points; 0 at 0 and 1 at 127 where those are not given. */
export const linearPoints = (points: ReadonlyMap<number, number>): readonly number[] => {
  const values: number[] = [];
  const given = [...new Map([[0, 0], [127, 1], ...points])].sort(([a], [b]) => a - b);
  given.forEach(([from, start], i) => {
    const [to, end] = given[i + 1] ?? [from + 1, start];
    for (let at = from; at < to; at += 1) {
      values.push(start + ((end - start) * (at - from)) / (to - from));
    }
  });
  return values;
};
