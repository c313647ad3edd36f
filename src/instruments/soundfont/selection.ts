import type { Zone } from '../instrument.ts';
import type { ZoneSet } from './zones.ts';

/** The part of a bank that an instrument takes in. */
export interface Selection {
  /** `samples` are indices into {@link Selection.samples}. */
  readonly zones: readonly Zone[];
  /** Indices of sample headers, ascending. */
  readonly samples: readonly number[];
}

/** All instrument zones and all samples, used or not (SoundFont 2.04, sections 7.6, 7.10: orphans). */
export const selectAll = (instruments: readonly ZoneSet[], samples: number): Selection => ({
  zones: instruments.flatMap((set, group) => zonesOf(set, group, (header) => header)),
  samples: Array.from({ length: samples }, (_, header) => header),
});

/** The instruments that a preset leads to, and the samples that they use. */
export const selectUsed = (preset: ZoneSet, instruments: readonly ZoneSet[]): Selection => {
  const groups = ascending(preset.zones.map(({ target }) => target));
  const samples = ascending(
    groups.flatMap((group) => instruments[group]!.zones.map(({ target }) => target)),
  );
  const place = new Map(samples.map((header, index) => [header, index]));
  const zones = groups.flatMap((group) =>
    zonesOf(instruments[group]!, group, (header) => place.get(header)!),
  );
  return { zones, samples };
};

const ascending = (values: readonly number[]): readonly number[] =>
  [...new Set(values)].sort((a, b) => a - b);

const zonesOf = ({ zones }: ZoneSet, group: number, sample: (header: number) => number): Zone[] =>
  zones.map(({ bag, target }) => ({
    id: bag,
    samples: [sample(target)],
    group,
    key: null,
    microphone: null,
  }));
