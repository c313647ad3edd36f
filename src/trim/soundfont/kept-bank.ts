import type { Hydra } from '../../instruments/soundfont/hydra.ts';
import { readZones, type ZoneSet } from '../../instruments/soundfont/zones.ts';
import type { TrimSet } from '../trim-set.ts';
import { keptOfInstrument, silentZone, withGlobal, type KeptOwner } from './kept-zones.ts';
import { isPlayable } from './playable.ts';

/** What stays of a bank, by the indices of the full one, each list ascending. */
export interface KeptBank {
  readonly presets: readonly KeptOwner[];
  readonly instruments: readonly KeptOwner[];
  /** Indices of sample headers. */
  readonly samples: readonly number[];
  /** For each zone of an instrument that leads to a sample, that sample. */
  readonly sampleOf: ReadonlyMap<number, number>;
}

/**
 * Chooses what stays: instruments with a zone in `keep.loaded`, presets that lead to one of them by a
 * zone in `keep.presetZones` or whose place must not be empty, and the samples those zones use.
 *
 * @param points how many the sound of the bank has
 * @returns null when no note could sound any more
 */
export const keptBank = (
  path: string,
  hydra: Hydra,
  keep: TrimSet,
  points: number,
): KeptBank | null => {
  const { samples } = hydra;
  const playable = (sample: number): boolean => isPlayable(samples[sample]!, points);
  const sampleOf = new Map<number, number>();
  const instruments: KeptOwner[] = [];
  for (const [index, { zones }] of hydra.instruments.entries()) {
    const set = readZones(path, hydra.instrumentZones, zones, samples.length);
    for (const { bag, target } of set.zones) sampleOf.set(bag, target);
    const kept = bagsOf(set).filter((bag) => keep.loaded.has(bag));
    if (kept.length === 0) continue;
    instruments.push({ index, zones: keptOfInstrument(set, zones, kept, playable) });
  }
  const presets = keptPresets(path, hydra, keep, instruments);
  if (instruments.length === 0 || presets.length === 0) return null;
  return { presets, instruments, samples: samplesOf(instruments, sampleOf), sampleOf };
};

const bagsOf = ({ zones }: ZoneSet): readonly number[] => zones.map(({ bag }) => bag);

/**
 * The presets that stay. One whose program is chosen keeps its place even when nothing of it sounds:
 * without it a synthesiser falls back to another preset, which would sound. A preset without any zone
 * is passed over by some synthesisers and found by others, so that it stays as empty as it is.
 */
const keptPresets = (
  path: string,
  hydra: Hydra,
  keep: TrimSet,
  instruments: readonly KeptOwner[],
): readonly KeptOwner[] => {
  const staying = new Set(instruments.map(({ index }) => index));
  const silentTarget = smallest(instruments);
  const presets: KeptOwner[] = [];
  for (const [index, { program, zones }] of hydra.presets.entries()) {
    const set = readZones(path, hydra.presetZones, zones, hydra.instruments.length);
    const kept = set.zones
      .filter(({ bag, target }) => keep.presetZones.has(bag) && staying.has(target))
      .map(({ bag }) => bag);
    if (kept.length > 0) {
      presets.push({ index, zones: withGlobal(set, zones, kept) });
    } else if (keep.programs.has(program)) {
      const isEmpty = zones.from === zones.to;
      presets.push({ index, zones: isEmpty ? [] : [silentZone(silentTarget)] });
    }
  }
  return presets;
};

/** The instrument with the fewest zones: a synthesiser that pairs zones has the least to do with it. */
const smallest = (instruments: readonly KeptOwner[]): number => {
  const fewest = Math.min(...instruments.map(({ zones }) => zones.length));
  return instruments.find(({ zones }) => zones.length === fewest)?.index ?? 0;
};

const samplesOf = (
  instruments: readonly KeptOwner[],
  sampleOf: ReadonlyMap<number, number>,
): readonly number[] => {
  const used = new Set<number>();
  for (const { zones } of instruments) {
    for (const zone of zones) {
      const sample = zone.kind === 'own' ? sampleOf.get(zone.bag) : undefined;
      if (sample !== undefined) used.add(sample);
    }
  }
  return [...used].sort((a, b) => a - b);
};
