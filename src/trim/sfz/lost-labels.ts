import { RegionOpcodes } from '../../instruments/sfz/program/region-opcodes.ts';
import { switchOf } from '../../instruments/sfz/program/switch-signals.ts';
import type { Region } from '../../instruments/sfz/structure/regions.ts';
import type { SfzFile } from '../../instruments/sfz/text/document.ts';
import { limits } from '../../instruments/sfz/text/limits.ts';
import { endOfValue } from '../../instruments/sfz/text/value-end.ts';
import { isEncodable } from './encoded.ts';

/** A region that names its switch. */
interface Labelled {
  readonly region: number;
  readonly label: string;
}

/** The regions that name one switch first and last: either counts, as a player has it. */
interface Ends {
  readonly first: Labelled;
  readonly last: Labelled;
}

/**
 * Names of switches that are lost, by the number of the lost region that gave them. What is added comes
 * last: where a region that stays gives a switch another name first, nothing brings the lost one back
 * for readers that take the first, and only the last one is said again.
 *
 * @param encoding of the file they are to be written to: a name that it can't hold stays lost
 */
export const lostLabels = (
  kept: readonly Region[],
  gone: readonly Region[],
  encoding: SfzFile['encoding'],
): ReadonlyMap<number, string> => {
  const stay = labelsIn(kept);
  const all = labelsIn([...kept, ...gone].sort((a, b) => a.number - b.number));
  const lost = new Map<number, string>();
  for (const [keys, { first, last }] of all) {
    const known = stay.get(keys)?.last.label;
    const wanted = [
      ...(known === undefined ? [first] : []),
      ...(last.label === (known ?? first.label) ? [] : [last]),
    ];
    for (const { region, label } of wanted) {
      if (readsBack(label, encoding)) lost.set(region, label);
    }
  }
  return lost;
};

/** By the keys of the switch. */
const labelsIn = (regions: readonly Region[]): ReadonlyMap<string, Ends> => {
  const labels = new Map<string, Ends>();
  for (const region of regions) {
    const label = region.opcodes.findLast(({ name }) => name === 'sw_label')?.value.trim() ?? '';
    if (label === '') continue;
    const keys = switchOf(new RegionOpcodes(region.opcodes), region)?.keys.join();
    if (keys === undefined) continue;
    const last = { region: region.number, label };
    labels.set(keys, { first: labels.get(keys)?.first ?? last, last });
  }
  return labels;
};

/** Written at the end of a line, it is read as it is: variables may have put in what would end it. */
const readsBack = (label: string, encoding: SfzFile['encoding']): boolean =>
  label.length <= limits.value &&
  endOfValue(label, 0) === label.length &&
  !label.includes('$') &&
  isEncodable(label, encoding);
