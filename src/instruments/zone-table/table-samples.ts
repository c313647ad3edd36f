import type { Sample } from '../instrument.ts';
import { shown } from './cell-text.ts';
import type { Faults } from './faults.ts';
import type { RowDraft } from './row-draft.ts';
import type { SampleSize } from './size.ts';
import { free } from '../zone-name.ts';

/** The samples of a table in the order of their first zones, and the one that each zone plays. */
export interface TableSamples {
  readonly all: readonly Sample[];
  /** By row and zone of the row: an index into {@link all}. */
  readonly ofZone: readonly (readonly number[])[];
}

/**
 * Gathers the samples: one name is one sample in all rows. A zone without one has a sample of its own
 * that bears the zone's name, or ` (2)` after it where a row gives that name to another sample.
 *
 * Faults: `table-sample-differs`, where a name has two sizes.
 */
export const gatherSamples = (
  rows: readonly RowDraft[],
  zoneNames: readonly (readonly string[])[],
  faults: Faults,
): TableSamples => {
  const all: Sample[] = [];
  const add = (name: string, size: SampleSize): number => {
    const { frames, channels, width, rate, assumedFrame } = size;
    const sample = { name, frames, channels, width, rate, present: true, partner: null };
    return all.push(assumedFrame === undefined ? sample : { ...sample, assumedFrame }) - 1;
  };
  const taken = new Set(rows.flatMap(({ samples }) => samples));
  const repeats = new Map<string, number>();
  const byName = new Map<string, { readonly index: number; readonly line: number }>();

  const named = (name: string, row: RowDraft): number => {
    const found = byName.get(name);
    if (found === undefined) {
      const index = add(name, row.size);
      byName.set(name, { index, line: row.line });
      return index;
    }
    const [bytes, other] = [bytesOf(row.size), bytesOf(all[found.index]!)];
    if (bytes !== other) {
      const args = { sample: shown(name), bytes, other, line: found.line };
      faults.add('table-sample-differs', args, row.samplesAt);
    }
    return found.index;
  };
  const ofZone = rows.map((row, i) =>
    zoneNames[i]!.map((zone, position) => {
      const [first] = row.samples;
      if (first === undefined) return add(free(zone, taken, repeats), row.size);
      return named(row.samples[position] ?? first, row);
    }),
  );
  return { all, ofZone };
};

const bytesOf = ({ frames, channels, width }: Omit<SampleSize, 'assumes' | 'rate'>): number =>
  frames * channels * width;
