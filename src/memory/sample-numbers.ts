import type { Instrument } from '../instruments/instrument.ts';

/** Numbers for the samples of one definition, so that instruments made from it can be compared fast. */
export interface SampleNumbers {
  /** The number of each sample of the instrument, in the order of its samples. */
  readonly numbers: Uint32Array;
  /** Numbers given so far in all instruments of the definition; it grows as more of them are seen. */
  readonly definition: { readonly size: number };
}

/** Sample name -> numbers, for the first, second ... sample of that name in an instrument. */
type Definition = Map<string, number>;

/** By digest. Held weakly: a definition goes with the last instrument made from it. */
const definitions = new Map<string, WeakRef<Definition>>();
const known = new WeakMap<Instrument, SampleNumbers>();

/**
 * Instruments of one definition give a sample of the same name the same number. A name that stands
 * twice in one instrument means two samples, as their indices do.
 */
export const sampleNumbers = (instrument: Instrument): SampleNumbers => {
  let found = known.get(instrument);
  if (found === undefined) known.set(instrument, (found = number(instrument)));
  return found;
};

const number = ({ sha256, samples }: Instrument): SampleNumbers => {
  const definition = definitionOf(sha256);
  const times = new Map<string, number>();
  const numbers = Uint32Array.from(samples, ({ name }) => {
    const time = times.get(name) ?? 0;
    times.set(name, time + 1);
    const key = `${String(time)} ${name}`;
    const given = definition.get(key) ?? definition.size;
    definition.set(key, given);
    return given;
  });
  return { numbers, definition };
};

const definitionOf = (sha256: string): Definition => {
  let definition = definitions.get(sha256)?.deref();
  if (definition === undefined) {
    definition = new Map<string, number>();
    definitions.set(sha256, new WeakRef(definition));
  }
  return definition;
};
