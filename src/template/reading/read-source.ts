import type { InferOutput } from 'valibot';
import { exampleFor } from './keys.ts';
import type { Reader } from './reader.ts';
import { missingKey } from './shape-faults.ts';
import type { shapes } from './shapes.ts';
import { shortened } from '../shortened.ts';
import type { InstrumentSource } from '../template.ts';
import { hasUnknownKeys } from './unknown-keys.ts';
import { entryOf, type YamlEntry } from './yaml/tree.ts';

type InstrumentFields = InferOutput<typeof shapes.instrument>;

/** Keys that name a definition; an instrument has one of them. */
const sources = ['file', 'zones', 'outline'] as const;

/** Where an instrument's definition is, or null after adding why that can't be told. */
export const readSource = (
  reader: Reader,
  { key: id, at, value: node }: YamlEntry,
  { file, zones, preset, 'middle-c': middleC }: InstrumentFields,
): InstrumentSource | null => {
  const path = ['instruments', id];
  const given = sources.filter((key) => entryOf(node, key) !== undefined);
  const [first, second] = given;
  if (first === undefined && hasUnknownKeys(node, 'instrument')) return null;
  if (first === undefined || second !== undefined) {
    const place = second === undefined ? at : reader.keyIn(node, second);
    const example = exampleFor([...path, 'file']);
    reader.faults.add(place, 'template-source', () => ({
      instrument: shortened(id),
      given,
      example,
    }));
    return null;
  }
  const alone = (key: string, needs: string): void => {
    if (entryOf(node, key) === undefined) return;
    reader.faults.add(reader.keyIn(node, key), 'template-key-alone', () => ({
      path: [...path, key],
      needs,
      example: exampleFor([...path, key]),
    }));
  };
  if (file !== undefined) {
    alone('middle-c', 'zones');
    if (!/\.sfz$/iu.test(file)) return { kind: 'soundfont', path: file, preset: preset ?? null };
    alone('preset', 'bank');
    return { kind: 'sfz', path: file };
  }
  if (zones === undefined) return null;
  alone('preset', 'file');
  if (middleC !== undefined) return { kind: 'zone-table', path: zones, middleC };
  missingKey(reader.faults, node, at, path, 'middle-c');
  return null;
};
