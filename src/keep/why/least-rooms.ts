/** Steps of a controller: nothing is further away. */
const most = 127;

/**
 * How much room each zone takes at least until something reaches it: halving, all zones at once.
 *
 * @param reached zones that are reached with so much room; more room never reaches less
 * @param worth false for a zone that no room from this on interests for
 */
export const leastRooms = (
  reached: (room: number) => ReadonlySet<number>,
  worth: (zone: number, room: number) => boolean,
): ReadonlyMap<number, number> => {
  const least = new Map<number, number>();
  /** `zones` are reached with `hi` and not with `lo`. */
  const search = (lo: number, hi: number, zones: readonly number[]): void => {
    const open = zones.filter((zone) => worth(zone, lo + 1));
    if (open.length === 0) return;
    if (hi - lo === 1) {
      for (const zone of open) least.set(zone, hi);
      return;
    }
    const middle = (lo + hi) >> 1;
    const there = reached(middle);
    search(
      lo,
      middle,
      open.filter((zone) => there.has(zone)),
    );
    search(
      middle,
      hi,
      open.filter((zone) => !there.has(zone)),
    );
  };
  const all = [...reached(most)];
  if (all.length === 0) return least;
  const none = reached(0);
  search(
    0,
    most,
    all.filter((zone) => !none.has(zone)),
  );
  return least;
};
