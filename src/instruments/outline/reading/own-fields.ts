import { Once } from '../../../notation/document/once.ts';
import type { Reader } from '../../../notation/document/reader.ts';
import { shortened } from '../../../notation/document/shortened.ts';
import { fold } from '../../../notation/fold.ts';
import { entryOf, type YamlEntry, type YamlNode } from '../../../notation/yaml/tree.ts';
import type { Place } from '../../../terms/finding.ts';
import { isOpen } from './open.ts';
import type { Fields, OutlineShapes } from './shapes.ts';

/** What an articulation says itself, and where. */
export interface OwnFields {
  readonly name: string;
  readonly at: Place;
  readonly fields: Fields;
  readonly likeAt: Place;
  readonly switchAt: Place;
  readonly keysAt: Place;
  readonly measuredAt: Place;
  readonly releasesMeasuredAt: Place;
  readonly legatoMeasuredAt: Place;
}

/** Words that readings of a display have for themselves. */
const taken: ReadonlySet<string> = new Set(['empty', 'full', 'every articulation']);

/** A number, with or without what stands before it; two spellings of one controller are one. */
const axisKey = (key: string): string => /\d+/u.exec(key)?.[0] ?? fold(key);

/** What comes twice under another spelling, which the reader of YAML can't know. */
const seeTwice = (
  reader: Reader,
  kind: string,
  node: YamlNode | undefined,
  keyOf: (key: string) => string,
): void => {
  const once = new Once(reader.faults, kind);
  if (node?.kind === 'map') {
    for (const { key, at } of node.entries) once.see(keyOf(key), key, at);
  } else if (node?.kind === 'list') {
    for (const item of node.items) {
      if (item.kind === 'scalar' && !isOpen(item)) once.see(keyOf(item.text), item.text, item.at);
    }
  }
};

/** Adds a fault where all takes were to be borrowed. */
const checkBorrowing = ({ faults }: Reader, node: YamlNode | undefined): void => {
  const robins = entryOf(node, 'round-robins')?.value;
  const borrow = entryOf(robins, 'borrow')?.value;
  const count = entryOf(robins, 'count')?.value;
  if (borrow?.kind !== 'scalar' || typeof borrow.value !== 'number') return;
  const own = count?.kind === 'scalar' && typeof count.value === 'number' ? count.value : 1;
  const borrowed = borrow.value;
  if (borrowed < own) return;
  faults.add(borrow.at, 'outline-borrow', () => ({ count: own, borrow: borrowed }));
};

const checkParts = (reader: Reader, node: YamlNode): void => {
  const value = (of: YamlNode | undefined, key: string) => entryOf(of, key)?.value;
  for (const part of [node, value(node, 'releases'), value(node, 'legato')]) {
    checkBorrowing(reader, part);
    const layers = value(part, 'layers');
    if (layers?.kind === 'map') seeTwice(reader, 'axis', layers, axisKey);
  }
  seeTwice(reader, 'axis', value(value(node, 'when'), 'controllers'), axisKey);
  seeTwice(reader, 'microphone', value(node, 'microphones'), fold);
};

/** Adds faults for names of microphones that stand twice at the top. */
export const checkMicrophones = (reader: Reader): void => {
  seeTwice(reader, 'microphone', reader.top('microphones')?.value, fold);
};

const readFields = (reader: Reader, shapes: OutlineShapes, entry: YamlEntry): Fields => {
  const { key: name, at, value: node } = entry;
  const path = ['articulations', name];
  if (node.kind === 'map') {
    const fields = reader.read(shapes.articulation, node, path, at);
    checkParts(reader, node);
    return fields ?? {};
  }
  const isName = node.kind === 'scalar' && (node.value === null || isOpen(node));
  const keys = isName ? null : reader.read(shapes.range, node, path, at);
  return keys === null ? {} : { keys };
};

/** What stands below `articulations`, in file order; those with a fault say nothing. */
export const readOwnFields = (reader: Reader, shapes: OutlineShapes): readonly OwnFields[] => {
  const once = new Once(reader.faults, 'articulation');
  return reader.namedEntries('articulations').map((entry) => {
    const { key: name, at, value: node } = entry;
    const folded = fold(name);
    if (folded === '') reader.faults.add(at, 'yaml-key-odd', () => ({ reason: 'empty' }));
    else once.see(folded, name, at);
    if (taken.has(folded)) {
      reader.faults.add(at, 'outline-name-taken', () => ({ name: shortened(name) }));
    }
    const place = (of: YamlNode, key: string): Place => entryOf(of, key)?.value.at ?? at;
    const part = (key: string): YamlNode => entryOf(node, key)?.value ?? node;
    return {
      name,
      at,
      fields: readFields(reader, shapes, entry),
      likeAt: place(node, 'like'),
      switchAt: place(node, 'switch'),
      // A text alone is where it can be played.
      keysAt: node.kind === 'map' ? place(node, 'keys') : node.at,
      measuredAt: place(node, 'measured'),
      releasesMeasuredAt: place(part('releases'), 'measured'),
      legatoMeasuredAt: place(part('legato'), 'measured'),
    };
  });
};
