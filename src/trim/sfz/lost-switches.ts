import type { Region } from '../../instruments/sfz/structure/regions.ts';
import { keyOf } from '../../instruments/sfz/text/numbers.ts';
import type { SfzFile } from '../../instruments/sfz/text/document.ts';
import { lostLabels } from './lost-labels.ts';
import { wholeText } from './stub-list.ts';
import type { Stub } from './stub.ts';

/** Opcodes that make a key a switch. `sw_previous` asks for a note that any region may play. */
const names = [
  ...['sw_lokey', 'sw_hikey', 'sw_last', 'sw_lolast', 'sw_hilast'],
  ...['sw_down', 'sw_up'],
] as const;

/**
 * Each combination of switches that some lost region asks for and no kept one does, and each switch
 * whose name is lost, with that name.
 *
 * @param encoding of the file that names are to be written to
 */
export const lostSwitches = (
  kept: readonly Region[],
  gone: readonly Region[],
  encoding: SfzFile['encoding'],
): readonly Stub[] => {
  const labels = lostLabels(kept, gone, encoding);
  const named = gone.filter(({ number }) => labels.has(number));
  const known = new Set([...kept, ...named].map((region) => keyOfStub(switchesOf(region))));
  return gone.flatMap((region) => {
    const stub = switchesOf(region);
    const label = labels.get(region.number);
    if (label !== undefined) return [{ ...stub, label }];
    const key = keyOfStub(stub);
    if (stub.opcodes.length === 0 || known.has(key)) return [];
    known.add(key);
    return [stub];
  });
};

/** The switches of a region as they count: of each opcode the last that can be read. */
const switchesOf = ({ opcodes, control }: Region): Stub => {
  const keys = new Map<string, number>();
  for (const { name, value } of opcodes) {
    const key = name.startsWith('sw_') ? keyOf(value) : null;
    if (key !== null) keys.set(name, key);
  }
  return {
    opcodes: names.flatMap((name): Stub['opcodes'] => {
      const key = keys.get(name);
      return key === undefined ? [] : [[name, wholeText(key)]];
    }),
    offsets: control,
  };
};

const keyOfStub = ({ opcodes, offsets }: Stub): string =>
  `${opcodes.join()} ${String(offsets?.noteOffset)} ${String(offsets?.switchOffset)}`;
