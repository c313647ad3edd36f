/**
 * Sines and pitches from additions and multiplications only: ECMA-262 leaves the last digits of
 * `Math.sin` and `Math.pow` to the engine, and the demo must be the same bytes everywhere.
 */

const tableSize = 4096;
const table = sineTable();

/** The sine of `turns` whole turns (1 = 360 degrees), from a table, for `turns` of 0 and above. */
export const sine = (turns: number): number => {
  const place = (turns - Math.floor(turns)) * tableSize;
  const index = Math.floor(place);
  const below = table[index]!;
  return below + (table[index + 1]! - below) * (place - index);
};

/** The frequency of a key in hertz, key 69 being 440. */
export const frequency = (key: number): number => {
  const semitone = 1.0594630943592953; // twelfth root of two
  let hertz = 440;
  for (let up = 69; up < key; up++) hertz *= semitone;
  for (let down = 69; down > key; down--) hertz /= semitone;
  return hertz;
};

/** How far `ratio` lies from 1 in cents; good to a hundredth of a cent for a few cents. */
export const smallCents = (ratio: number): number => (ratio - 1) * 1731.234; // 1200 / ln 2

/** One turn in 4096 steps by rotating a vector; the step itself comes from a power series. */
function sineTable(): Float64Array {
  const step = (2 * Math.PI) / tableSize;
  const stepSine = step - (step * step * step) / 6;
  const stepCosine = 1 - (step * step) / 2 + (step * step * step * step) / 24;
  const values = new Float64Array(tableSize + 1);
  let [x, y] = [1, 0];
  for (let index = 0; index < tableSize; index++) {
    values[index] = y;
    [x, y] = [x * stepCosine - y * stepSine, y * stepCosine + x * stepSine];
  }
  return values;
}
