import { checkId } from './declared.ts';
import type { Machine } from '../machine.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { shapes } from './shapes.ts';

/** What `machines:` declares, by id; those with a fault have no budget. */
export const readMachines = (reader: Reader): ReadonlyMap<string, Machine> => {
  const machines = new Map<string, Machine>();
  for (const entry of reader.namedEntries('machines')) {
    const { key: id, at, value } = entry;
    checkId(reader, 'machine', entry);
    const read = reader.read(shapes.machine, value, ['machines', id], at);
    machines.set(id, { id, budget: null });
    if (read === null) continue;
    const { memory, reserve = 0 } = read;
    if (memory > reserve) machines.set(id, { id, budget: memory - reserve });
    else {
      const place = reader.placeIn(value, reserve > 0 ? 'reserve' : 'memory');
      reader.faults.add(place, 'template-reserve', () => ({ machine: id, memory, reserve }));
    }
  }
  return machines;
};
