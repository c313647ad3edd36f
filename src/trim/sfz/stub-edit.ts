import type { SfzDocument } from '../../instruments/sfz/text/document.ts';
import { dataOpcode } from './cuts.ts';
import { edited, type Edit } from './edit.ts';
import type { Fates } from './fates.ts';
import { lineEndOf } from './line-end.ts';
import { lineOf } from './stub-list.ts';
import type { Stubs } from './stubs.ts';

/** What tells people why they are there. */
const comment =
  '// These play nothing. They stand for switches and controllers of regions that are gone.';

/**
 * The changes with stubs at the end of the root file.
 *
 * @param edits by inclusion
 */
export const withStubs = (
  { files, headers }: SfzDocument,
  { ofHeader }: Fates,
  edits: ReadonlyMap<number, readonly Edit[]>,
  stubs: Stubs,
): ReadonlyMap<number, readonly Edit[]> => {
  if (stubs.regions === 0) return edits;
  const { text } = files[0]!;
  const own = edits.get(0) ?? [];
  const lineEnd = lineEndOf(text);
  const isOpen = !/(?:^|[\r\n])$/u.test(edited(text, own));
  const last = headers[ofHeader.findLastIndex((fate) => fate !== 'goes')]?.opcodes.at(-1);
  const [first = '', ...lines] = stubs.headers.map(lineOf);
  // Data would take a comment for more of it.
  const start = last?.name === dataOpcode ? [`${first} ${comment}`] : [comment, first];
  const put = [...start, ...lines].map((line) => line + lineEnd).join('');
  const edit = { start: text.length, end: text.length, put: (isOpen ? lineEnd : '') + put };
  return new Map([...edits, [0, [...own, edit]]]);
};
