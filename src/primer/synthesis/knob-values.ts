import type { Signal } from '../../instruments/program.ts';
import type { RoutedSource } from '../../template/routed.ts';
import { contains, type Range } from '../../terms/range.ts';
import type { Lane } from '../lanes.ts';
import { middles, sevenBits, type Limits } from './bands-of-choice.ts';
import { knobOf } from './demands.ts';
import { patchesOn } from './lanes-for.ts';
import { primerTempo, type Performer } from './performer.ts';
import { wireController, wireKey } from './wire.ts';

/** Stands for no value: what nothing asks for may be left alone. */
export const asItIs = -1;

/** Values to set something to; none: it is left alone; null: what is asked for can't be set. */
export const valuesFor = (
  performer: Performer,
  signal: Signal,
  index: number,
  wanted: readonly Range[] | undefined,
  limits: Limits,
  source: RoutedSource,
  lane: Lane,
): readonly number[] | null => {
  const knob = knobOf(signal, index);
  const edges = limits.knobs.get(knob) ?? [];
  const all = (whole: Range): readonly number[] => middles(wanted ?? [whole], edges, whole);
  const now = performer.valueOf(index, lane.channel);
  const orNone = (values: readonly number[]): readonly number[] | null =>
    values.length === 0 && wanted !== undefined ? null : values;
  switch (signal.kind) {
    case 'controller': {
      if (wireController(source.transform, signal.number) === null) {
        return wanted?.some((range) => contains(range, now.value)) === false ? null : [];
      }
      if (wanted === undefined && performer.plain.changes.has(index)) return [];
      const usual = performer.plain.pedals.has(signal.number) ? 0 : now.value;
      const values = all(sevenBits);
      return orNone(wanted === undefined ? [...new Set([usual, ...values])] : values);
    }
    case 'bend':
      if (wanted === undefined && performer.plain.changes.has(index)) return [];
      return orNone(withFirst(0, wanted, all([-8192, 8191])));
    case 'pressure':
    case 'poly-pressure':
      if (wanted === undefined && performer.plain.changes.has(index)) return [];
      return orNone(withFirst(0, wanted, all(sevenBits)));
    case 'program':
      return orNone(all(sevenBits));
    case 'patch':
      return orNone(wanted === undefined ? [] : patchesOn(lane.channel, wanted, 4));
    case 'switch': {
      const keys = signal.keys.flatMap((range) => all(range).filter((key) => contains(range, key)));
      const reach = keys.filter((key) => wireKey(source.transform, key) !== null);
      const current = reach.filter((key) => now.isTold && key === now.value);
      const values = [...new Set([...current, ...reach])].slice(0, 8);
      return orNone(wanted === undefined ? [...values, asItIs] : values);
    }
    case 'tempo':
      return wanted?.some((range) => contains(range, primerTempo)) === false ? null : [];
    case 'channel':
    case 'held':
    case 'previous-key':
    case 'previous-velocity':
      return [];
  }
};

const withFirst = (
  first: number,
  wanted: readonly Range[] | undefined,
  values: readonly number[],
): readonly number[] =>
  wanted?.some((range) => contains(range, first)) === false
    ? values
    : [...new Set([first, ...values])];
