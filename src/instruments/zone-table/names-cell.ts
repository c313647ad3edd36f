import { listed } from './cell-text.ts';

/** Names divided by `|`; null when one of them is empty. */
export const parseNames = (text: string): readonly string[] | null => {
  const names = listed(text);
  return names.includes('') ? null : names;
};
