import { parseControllers, type ControllerRange } from '../../notation/controllers.ts';
import { fold } from '../../notation/fold.ts';
import { parseKeyRanges, parseRanges } from '../../notation/range.ts';
import { parseSwitch, type SwitchTest } from '../../notation/switch.ts';
import type { Place } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';
import { everyArticulation } from '../instrument.ts';
import type { StartEvent } from '../program.ts';
import { shown } from './cell-text.ts';
import { together } from './fades.ts';
import { parseNames } from './names-cell.ts';
import { readMicrophones } from './row-microphones.ts';
import { parseTakes } from './round-robin.ts';
import { readSize, type SampleSize } from './size.ts';
import { parseStartEvent } from './start-event.ts';
import type { TableRow } from './table-row.ts';

/** How the cells of a table are written. */
export interface TableNotation {
  /** The octave of key 60. */
  readonly middleC: number;
  readonly decimalComma: boolean;
}

/**
 * A row, read: one zone, or one for each combination of its lists. What an empty cell stands for is
 * filled in, so no list is empty.
 */
export interface RowDraft {
  readonly line: number;
  /** Null for a row that belongs to every articulation. */
  readonly articulation: string | null;
  readonly switch: { readonly test: SwitchTest; readonly text: string; readonly at: Place } | null;
  readonly event: StartEvent;
  readonly keys: readonly Range[];
  readonly keysAt: Place;
  readonly velocities: readonly Range[];
  readonly velocitiesAt: Place;
  /** Alternatives; in each, the controllers that must be in their ranges together. */
  readonly controllers: readonly (readonly ControllerRange[])[];
  /** Alternating takes, from 1; null where the row has none. */
  readonly takes: readonly (number | null)[];
  readonly microphones: readonly (string | null)[];
  /** Zones that the row stands for: the product of its lists. */
  readonly zones: number;
  readonly size: SampleSize;
  /** None: a sample for each zone; one: the zones share it; else one for each zone in their order. */
  readonly samples: readonly string[];
  readonly samplesAt: Place;
  /** What the row is called in `key`; null where it is not. */
  readonly key: string | null;
  readonly keyAt: Place;
}

const anyVelocity: readonly Range[] = [[1, 127]];

/** Reads a row; null with faults when something in it is wrong. */
export const readRow = (row: TableRow, notation: TableNotation): RowDraft | null => {
  const { middleC } = notation;
  const name = row.text('articulation');
  const articulation = name === '' || fold(name) === everyArticulation ? null : name;
  const selector = row.read('switch', null, (text) => parseSwitch(text, middleC));
  if (articulation === null && row.text('switch') !== '') {
    row.fault('table-switch-alone', 'switch', { switch: shown(row.text('switch')) });
  }
  if (row.text('keys') === '') row.fault('table-cell-missing', 'keys', { column: 'keys' });
  const keys = row.read('keys', [], (text) => parseKeyRanges(text, middleC));
  const velocities = readVelocities(row);
  const controllers = readControllers(row);
  // Nothing is made of it here, but a row in which it cannot be read was not written as it was meant.
  row.read('sampled-key', [], (text) => parseKeyRanges(text, middleC));
  const takes = row.read<readonly (number | null)[]>('round-robin', [null], parseTakes);
  const microphones = readMicrophones(row);
  const event = row.read('release', 'note-on', parseStartEvent);
  const zones = [keys, velocities, controllers, takes, microphones].reduce(
    (product, { length }) => product * length,
    1,
  );
  const samples = row.read('sample', [], parseNames);
  if (samples.length > 1 && samples.length !== zones && row.isSound) {
    row.fault('table-sample-count', 'sample', { samples: samples.length, zones });
  }
  const size = readSize(row, notation.decimalComma);
  if (!row.isSound || size === null) return null;
  return {
    line: row.line,
    articulation,
    switch:
      selector === null ? null : { test: selector, text: row.text('switch'), at: row.at('switch') },
    event,
    keys,
    keysAt: row.at('keys'),
    velocities,
    velocitiesAt: row.at('velocities'),
    controllers,
    takes,
    microphones,
    zones,
    size,
    samples,
    samplesAt: row.at('sample'),
    key: row.text('key') === '' ? null : row.text('key'),
    keyAt: row.at('key'),
  };
};

/** Velocity 0 is a note-off, so it starts nothing. */
const readVelocities = (row: TableRow): readonly Range[] => {
  const ranges = row.read('velocities', anyVelocity, parseRanges);
  if (ranges.some(([, hi]) => hi === 0)) neverSounds(row, 'velocities');
  return ranges.map(([lo, hi]): Range => [Math.max(1, lo), hi]);
};

const readControllers = (row: TableRow): RowDraft['controllers'] => {
  const alternatives = row.read<RowDraft['controllers']>('controllers', [[]], parseControllers);
  return alternatives.map((all) => {
    const joined = together(all);
    if (joined === null) neverSounds(row, 'controllers');
    return joined ?? [];
  });
};

const neverSounds = (row: TableRow, column: 'velocities' | 'controllers'): void =>
  row.fault('table-never-sounds', column, { column, value: shown(row.text(column)) });
