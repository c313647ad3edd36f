import type { Look } from '../look.ts';
import { layOut, notShown, type Column, type Row } from '../table.ts';

/** A heading, a table, and what of it had no room. */
export const titledTable = (
  title: string,
  columns: readonly Column[],
  rows: readonly Row[],
  look: Look,
): readonly string[] => {
  const { text, leftOut } = layOut(columns, rows, look);
  return [look.colors.bold(title), '', text, ...notShown(leftOut, look)];
};
