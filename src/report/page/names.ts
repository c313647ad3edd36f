import type { Overview } from '../../overview/overview.ts';
import { printable } from '../../terms/printable.ts';
import { cutMiddle } from '../text-width.ts';
import { markup, joined, type Html } from './html.ts';
import { formatCount } from './numbers.ts';

/** Longer names lose their middle. The data that the page holds has all of them whole. */
const longest = 60;

/** A name from a file as it may be shown: made printable, then cut, and escaped where it is put in. */
export const shown = (name: string): string => cutMiddle(printable(name), longest, '…');

/** A name inside a sentence, kept apart from it where its script runs from right to left. */
export const named = (name: string): Html => markup`<bdi>${shown(name)}</bdi>`;

/** Names in a row; those beyond `most` are only counted. */
export const listed = (names: readonly string[], most = 12): Html => {
  const rest = names.length - most;
  const first = joined(names.slice(0, most).map(named), ', ');
  return rest > 0 ? markup`${first} and ${formatCount(rest)} more` : first;
};

export const machineName = ({ machines }: Overview, machine: number): string =>
  machines[machine]?.id ?? '';

export const instrumentName = ({ instruments }: Overview, instrument: number): string =>
  instruments[instrument]?.id ?? '';

export const cueName = ({ cues }: Overview, cue: number): string => cues[cue]?.id ?? '';
