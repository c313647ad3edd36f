import type { Instrument } from '../../../src/instruments/instrument.ts';
import { zoneTable } from '../../../src/instruments/zone-table/read.ts';
import { InputError } from '../../../src/terms/errors.ts';
import type { Finding } from '../../../src/terms/finding.ts';
import { namesOf } from '../../../src/terms/doubt.ts';
import { digest } from '../soundfont/reading.ts';

/** Reads a table from its text, or from its bytes. */
export const readTable = (table: string | Uint8Array, middleC = 4): Instrument => {
  const bytes = typeof table === 'string' ? new TextEncoder().encode(table) : table;
  return zoneTable(bytes, 'tables/harp.csv', middleC, digest);
};

/** A table with one row, from what stands in it: 1 000 bytes on every key unless it says otherwise. */
export const rowTable = (cells: Readonly<Record<string, string>>): string => {
  const row = 'frames' in cells || 'seconds' in cells ? cells : { bytes: '1000', ...cells };
  const all = { keys: '0-127', ...row };
  return [Object.keys(all), Object.values(all)].map((line) => line.join(';')).join('\n');
};

/** What is remarked on a table, but for zones over many keys: those keep the tables of tests short. */
export const remarksOf = ({ findings }: Instrument): readonly Finding[] =>
  findings.filter(({ code }) => code !== 'table-wide-zones');

/** Everything that is wrong with a table; fails when nothing is. */
export const faultsOf = (table: string | Uint8Array): readonly Finding[] => {
  try {
    readTable(table);
  } catch (error) {
    if (error instanceof InputError) return [error.finding, ...error.others];
    throw error;
  }
  throw new Error('expected an InputError');
};

/** Faults as text: code, line, column. */
export const faultLines = (table: string | Uint8Array): readonly string[] =>
  faultsOf(table).map(({ code, at }) =>
    [code, String(at?.line ?? '-'), ...(at?.column === undefined ? [] : [at.column])].join(' '),
  );

/** Starts as text: key of the zone, event, keys, velocities, fades, doubts. */
export const startLines = ({ program, zones }: Instrument): readonly string[] =>
  program.starts.map(({ zone, event, keys, velocities, fades, gate, doubt }) =>
    [
      `${zones[zone]!.key ?? ''}:`,
      event,
      keys.join('-'),
      velocities.join('-'),
      ...fades.map(({ signal, lo, hi }) => {
        const one = program.signals[signal]!;
        return `${one.kind} ${one.kind === 'controller' ? String(one.number) : ''}:${String(lo)}-${String(hi)}`;
      }),
      `gate ${String(gate)}`,
      ...namesOf(doubt),
    ].join(' '),
  );

/** Bytes of each zone's sample, by hand: not by the code of `memory`. */
export const zoneBytes = ({ zones, samples }: Instrument): readonly number[] =>
  zones.map((zone) => {
    const { frames, channels, width } = samples[zone.samples[0]!]!;
    return frames * channels * width;
  });
