/** There are 128 keys and 128 values: a longer list of either is a slip. */
const longest = 128;

/**
 * The items of a list in one cell, each read by `parse`.
 *
 * @returns in the order written, 1 to 128 of them; null when one cannot be read or there are more
 */
export const parseList = <Item>(
  text: string,
  mark: string,
  parse: (item: string) => Item | null,
): readonly Item[] | null => {
  const items: Item[] = [];
  for (const part of text.split(mark, longest + 1)) {
    const item = parse(part);
    if (item === null || items.length === longest) return null;
    items.push(item);
  }
  return items;
};
