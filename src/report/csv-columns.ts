import type { Witness } from '../keep/plan.ts';
import type { DoubtName } from '../terms/doubt.ts';
import { csvText, listed, type CsvValue } from './csv.ts';

/** A column of a table with a row for each `Item`. */
export interface CsvColumn<Item> {
  readonly title: string;
  readonly value: (item: Item) => CsvValue;
}

/** The table of some items, in their order. */
export const csvOf = <Item>(columns: readonly CsvColumn<Item>[], items: readonly Item[]): string =>
  csvText(
    columns.map(({ title }) => title),
    items.map((item) => columns.map(({ value }) => value(item))),
  );

/** Sets of doubts; what needs none is `plain`. @example doubtSets([['order', 'tail'], ['slack']]) // 'order + tail; slack' */
export const doubtSets = (sets: readonly (readonly DoubtName[])[]): string =>
  listed(sets.map((set) => (set.length === 0 ? 'plain' : set.join(' + '))));

/** Notes by cue. @example notesByCue({ '1m1': 30 }) // '1m1: 30' */
export const notesByCue = (cues: Readonly<Record<string, number>>): string =>
  listed(Object.entries(cues).map(([cue, notes]) => `${cue}: ${String(notes)}`));

/** Where a note is that asks for the item, or empty cells. Tracks count from 0, bars and beats from 1. */
export const placeColumns = <Item>(
  placeOf: (item: Item) => Witness | undefined,
): readonly CsvColumn<Item>[] => {
  const column = (title: string, value: (place: Witness) => CsvValue): CsvColumn<Item> => ({
    title,
    value: (item) => {
      const place = placeOf(item);
      return place === undefined ? null : value(place);
    },
  });
  return [
    column('first-cue', ({ cue }) => cue),
    column('first-track', ({ track }) => track),
    column('first-track-name', ({ trackName }) => trackName),
    column('first-bar', ({ bar }) => bar),
    column('first-beat', ({ beat }) => beat),
    column('first-seconds', ({ seconds }) => seconds),
    column('first-timecode', ({ timecode }) => timecode),
    column('first-key', ({ key }) => key),
    column('first-velocity', ({ velocity }) => velocity),
  ];
};
