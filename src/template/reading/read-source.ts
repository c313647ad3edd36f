import type { InferOutput } from 'valibot';
import { exampleAt, keys } from './keys.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { missingKey } from '../../notation/document/shape-faults.ts';
import type { shapes } from './shapes.ts';
import { shortened } from '../../notation/document/shortened.ts';
import type { InstrumentSource } from '../template.ts';
import { hasUnknownKeys } from '../../notation/document/unknown-keys.ts';
import { entryOf, type YamlEntry } from '../../notation/yaml/tree.ts';

type InstrumentFields = InferOutput<typeof shapes.instrument>;

/** Keys that name a definition; an instrument has one of them. */
const sources = ['file', 'zones', 'outline'] as const;

/** Where an instrument's definition is, or null after adding why that can't be told. */
export const readSource = (
  reader: Reader,
  { key: id, at, value: node }: YamlEntry,
  { file, zones, outline, preset, 'middle-c': middleC }: InstrumentFields,
): InstrumentSource | null => {
  const path = ['instruments', id];
  const given = sources.filter((key) => entryOf(node, key) !== undefined);
  const [first, second] = given;
  if (first === undefined && hasUnknownKeys(node, keys.instrument)) return null;
  if (first === undefined || second !== undefined) {
    const place = second === undefined ? at : reader.keyIn(node, second);
    const example = exampleAt([...path, 'file']);
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
      example: exampleAt([...path, key]),
    }));
  };
  if (file !== undefined) {
    alone('middle-c', 'zones');
    alone('microphones', 'named');
    if (!/\.sfz$/iu.test(file)) return { kind: 'soundfont', path: file, preset: preset ?? null };
    alone('preset', 'bank');
    return { kind: 'sfz', path: file };
  }
  if (zones === undefined && outline === undefined) return null;
  alone('preset', 'file');
  if (outline !== undefined) {
    alone('middle-c', 'outlined');
    return { kind: 'outline', path: outline };
  }
  if (zones === undefined) return null;
  if (middleC !== undefined) return { kind: 'zone-table', path: zones, middleC };
  missingKey(reader, node, at, path, 'middle-c');
  return null;
};
