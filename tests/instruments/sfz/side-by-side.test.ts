import { expect, test } from 'vitest';
import { sideBySide } from '../../../src/instruments/sfz/samples/side-by-side.ts';

test.for([0, 1, 5, 16, 100])(
  '%i items, never more than five at a time, in order',
  async (count) => {
    let underWay = 0;
    let most = 0;
    const items = Array.from({ length: count }, (_, i) => i);
    const results = await sideBySide(items, 5, async (item) => {
      underWay += 1;
      most = Math.max(most, underWay);
      // Later ones are done earlier.
      for (let turn = item % 7; turn < 7; turn++) await Promise.resolve();
      underWay -= 1;
      return item * 2;
    });
    expect(results).toEqual(items.map((item) => item * 2));
    expect(most).toBe(Math.min(count, 5));
  },
);

test('one that fails is told', async () => {
  const act = (item: number): Promise<number> =>
    item === 3 ? Promise.reject(new Error('three')) : Promise.resolve(item);
  await expect(sideBySide([1, 2, 3, 4], 2, act)).rejects.toThrow('three');
});
