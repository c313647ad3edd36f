import type { Instrument } from '../../instruments/instrument.ts';
import type { Gate } from '../../instruments/program.ts';
import { hasRoom } from '../../playback/bands.ts';

const everyValue = Array.from({ length: 128 }, (_, value) => ({ lo: value, hi: value, doubt: 0 }));

/**
 * An instrument that plays the same and tells all values of its controllers apart. Usage knows values
 * only between the limits that some zone asks for, and how far one is from a limit needs the value
 * itself. A gate that belongs to no start asks for each of them; starts keep their numbers.
 */
export const withExactValues = (instrument: Instrument): Instrument => {
  const { program } = instrument;
  const exact: Gate = program.signals.flatMap((one, signal) =>
    hasRoom(one) ? [{ signal, tests: everyValue }] : [],
  );
  if (exact.length === 0) return instrument;
  return { ...instrument, program: { ...program, gates: [...program.gates, exact] } };
};
