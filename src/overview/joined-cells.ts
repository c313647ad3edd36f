import type { KeyMapCell } from '../keep/key-map/key-map.ts';

/**
 * Cells beside each other that tell the same but for how many zones they have become one, with the most
 * that any key of it has. What stays whole is not joined with what does not.
 */
export const joinedCells = (cells: readonly KeyMapCell[]): readonly KeyMapCell[] => {
  const joined: KeyMapCell[] = [];
  for (const cell of cells) {
    const last = joined.at(-1);
    if (last === undefined || last.keys[1] + 1 !== cell.keys[0] || !isAlike(last, cell)) {
      joined.push(cell);
      continue;
    }
    joined[joined.length - 1] = {
      ...last,
      keys: [last.keys[0], cell.keys[1]],
      zones: Math.max(last.zones, cell.zones),
      kept: Math.max(last.kept ?? 0, cell.kept ?? 0),
    };
  }
  return joined;
};

const isAlike = (a: KeyMapCell, b: KeyMapCell): boolean =>
  a.state === b.state &&
  a.reasons.join() === b.reasons.join() &&
  (a.kept === a.zones) === (b.kept === b.zones);
