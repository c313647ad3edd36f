import { fold } from '../../notation/fold.ts';
import { parseKeyRange } from '../../notation/range.ts';
import { checkDeclared } from './declared.ts';
import { Once } from '../../notation/document/once.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { shapes } from './shapes.ts';
import type { Pin } from '../template.ts';
import { wrongValue } from '../../notation/document/wrong-value.ts';
import { entryOf } from '../../notation/yaml/tree.ts';

const keyOf = ({ instrument, articulation, keys, velocities }: Pin): string =>
  JSON.stringify([instrument, articulation === null ? null : fold(articulation), keys, velocities]);

/**
 * What `pins:` keeps, in file order.
 *
 * @param middleC the octave of key 60 in the names of keys
 */
export const readPins = (
  reader: Reader,
  middleC: number,
  ids: ReadonlySet<string>,
): readonly Pin[] => {
  const { faults } = reader;
  const pins: Pin[] = [];
  const once = new Once(faults, 'pin');
  for (const [index, node] of reader.items('pins').entries()) {
    const path = ['pins', index];
    const fields = reader.read(shapes.pin, node, path);
    if (fields === null) continue;
    const { instrument, articulation = null, velocities = null } = fields;
    checkDeclared(reader, 'instrument', instrument, reader.placeIn(node, 'instrument'), ids);
    const keys = fields.keys === undefined ? null : parseKeyRange(fields.keys, middleC);
    const written = entryOf(node, 'keys')?.value;
    if (keys === null && written !== undefined) {
      wrongValue(reader, written, [...path, 'keys'], 'keys-of-instrument');
      continue;
    }
    const pin = { instrument, articulation, keys, velocities, at: node.at };
    once.see(keyOf(pin), instrument, node.at);
    pins.push(pin);
  }
  return pins;
};
