import { exampleAt } from './keys.ts';
import { Once } from '../../../notation/document/once.ts';
import type { Reader } from '../../../notation/document/reader.ts';
import { shortened } from '../../../notation/document/shortened.ts';
import { fold } from '../../../notation/fold.ts';
import { entryOf } from '../../../notation/yaml/tree.ts';
import type { Place } from '../../../terms/finding.ts';
import type { Choice } from '../outline.ts';
import { unknownArticulation, type Filled } from './like.ts';
import type { OwnFields } from './own-fields.ts';
import type { OutlineShapes } from './shapes.ts';

/** What selects an articulation, and where that is written. */
export interface PlacedChoice {
  readonly choice: Choice;
  readonly at: Place;
}

/** The highest key there is. */
const highest = 127;

/** What the row of switches says: a key for each name, by the name folded. */
const readRow = (
  reader: Reader,
  shapes: OutlineShapes,
  names: readonly string[],
): ReadonlyMap<string, PlacedChoice> => {
  const { faults } = reader;
  const keys = new Map<string, PlacedChoice>();
  const row = reader.readTop(shapes.switches, 'switches');
  if (row === null) return keys;
  const node = entryOf(reader.top('switches')?.value, 'names')?.value;
  const items = node?.kind === 'list' ? node.items : [];
  const once = new Once(faults, 'switch');
  const there = new Set(names.map(fold));
  for (const [i, name] of row.names.entries()) {
    if (name === null) continue;
    const { at } = items[i]!;
    const folded = fold(name);
    once.see(folded, name, at);
    const key = row.from + i;
    if (key > highest) {
      const example = exampleAt(['switches', 'from']);
      faults.add(at, 'outline-row-beyond', () => ({ name: shortened(name), example }));
    } else if (!there.has(folded)) {
      faults.add(at, 'outline-unknown-articulation', () => unknownArticulation(name, names));
    } else keys.set(folded, { choice: { kind: 'switch', test: { kind: 'key', key } }, at });
  }
  return keys;
};

/**
 * What selects each articulation: its own switch, or its place in the row of switches, not both; or the
 * player itself, and then neither.
 *
 * @returns in the order of `own`
 */
export const readChoices = (
  reader: Reader,
  shapes: OutlineShapes,
  own: readonly OwnFields[],
  filled: readonly Filled[],
): readonly PlacedChoice[] => {
  const row = readRow(
    reader,
    shapes,
    own.map(({ name }) => name),
  );
  return own.map(({ name, at, switchAt, fields }, i): PlacedChoice => {
    const inRow = row.get(fold(name));
    const choice = fields.switch ?? null;
    const fault = (where: Place, reason: string): void =>
      reader.faults.add(where, 'outline-switch-twice', () => ({
        articulation: shortened(name),
        reason,
      }));
    if (filled[i]!.fields.when === 'player') {
      if (choice !== null && choice.kind !== 'none') fault(switchAt, 'player');
      else if (inRow !== undefined) fault(inRow.at, 'player');
      return { choice: { kind: 'player' }, at };
    }
    if (choice !== null && inRow !== undefined) fault(switchAt, 'row');
    if (choice !== null) return { choice, at: switchAt };
    return inRow ?? { choice: { kind: 'unknown' }, at };
  });
};
