import type { Range } from '../terms/range.ts';

/** A control, cut where what is asked for may change. */
export interface CutControl {
  /** Side by side, from low to high. */
  readonly bands: readonly Range[];
}

/** More points than these are not looked through. */
const mostPoints = 20_000;

/** Whether there are more combinations of bands than are looked through. */
export const isTooMuch = (controls: readonly CutControl[]): boolean =>
  controls.reduce((product, { bands }) => product * bands.length, 1) > mostPoints;

/**
 * Values of several controls that may be used freely as long as all stay within them at once: the box
 * with the most values in which nothing is unsafe. Of boxes of one size the lowest.
 *
 * @param isSafe asked with a value of each control, one for each combination of bands
 * @returns a range for each control, none for no control; null: nothing is safe
 * @throws {RangeError} when there are too many combinations, see {@link isTooMuch}
 */
export const safeBox = (
  controls: readonly CutControl[],
  isSafe: (values: readonly number[]) => boolean,
): readonly Range[] | null => {
  if (isTooMuch(controls)) throw new RangeError('too many combinations');
  const bands = controls.map((control) => control.bands);
  const points = bands.reduce<readonly (readonly number[])[]>(
    (before, own) => before.flatMap((values) => own.map(([lo]) => [...values, lo])),
    [[]],
  );
  return (
    largest(
      bands,
      Uint8Array.from(points, (values) => Number(isSafe(values))),
    )?.box ?? null
  );
};

interface Box {
  readonly box: readonly Range[];
  readonly size: number;
}

/**
 * Every stretch of the first control's bands, with what is safe all along it for the others.
 *
 * @param safe by combination of bands, those of the last control side by side
 */
const largest = (
  [first, ...others]: readonly (readonly Range[])[],
  safe: Uint8Array,
): Box | null => {
  if (first === undefined) return safe[0] === 1 ? { box: [], size: 1 } : null;
  const stride = safe.length / first.length;
  let best: Box | null = null;
  first.forEach(([lo], from) => {
    let common = safe.subarray(from * stride, (from + 1) * stride);
    for (let to = from; to < first.length; to++) {
      const beside = safe.subarray(to * stride, (to + 1) * stride);
      common = common.map((is, i) => is & beside[i]!);
      if (!common.includes(1)) break;
      const rest = largest(others, common);
      const hi = first[to]![1];
      const size = (hi - lo + 1) * (rest?.size ?? 0);
      if (rest !== null && size > (best?.size ?? 0)) best = { box: [[lo, hi], ...rest.box], size };
    }
  });
  return best;
};
