/** Something that can be taken, and what it covers. */
export interface Cover<Taken> {
  readonly taken: Taken;
  readonly covers: ReadonlySet<string>;
}

/**
 * A small number of covers that together have all that any of them has: always the one that adds the
 * most, of equal ones the first. It may take a few more than the fewest there could be (greedy set
 * cover; common practice).
 *
 * @returns what was taken, in the order given, with what each adds that those taken before it lack
 */
export const coverAll = <Taken>(
  covers: readonly Cover<Taken>[],
): readonly { readonly taken: Taken; readonly adds: ReadonlySet<string> }[] => {
  const open = new Set(covers.flatMap((one) => [...one.covers]));
  const found: { readonly index: number; readonly adds: ReadonlySet<string> }[] = [];
  while (open.size > 0) {
    let best = -1;
    let most = 0;
    covers.forEach(({ covers: own }, index) => {
      if (own.size <= most) return;
      let count = 0;
      for (const one of own) count += Number(open.has(one));
      if (count <= most) return;
      best = index;
      most = count;
    });
    const adds = new Set([...covers[best]!.covers].filter((one) => open.has(one)));
    for (const one of adds) open.delete(one);
    found.push({ index: best, adds });
  }
  return found
    .sort((a, b) => a.index - b.index)
    .map(({ index, adds }) => ({ taken: covers[index]!.taken, adds }));
};
