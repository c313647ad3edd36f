/**
 * Does `act` for each item, in their order but several at a time: a disk that takes its time to answer is
 * then waited for once, not for each.
 *
 * @param most as many as are under way together
 * @returns what `act` came to, in the order of the items
 */
export const sideBySide = async <Item, Result>(
  items: readonly Item[],
  most: number,
  act: (item: Item) => Promise<Result>,
): Promise<readonly Result[]> => {
  const results: Result[] = [];
  let next = 0;
  const work = async (): Promise<void> => {
    while (next < items.length) {
      const number = next++;
      results[number] = await act(items[number]!);
    }
  };
  await Promise.all(Array.from({ length: Math.min(most, items.length) }, work));
  return results;
};
