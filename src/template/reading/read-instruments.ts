import { fold } from '../../notation/fold.ts';
import { Assigner, type Use } from './assigner.ts';
import { checkId } from './declared.ts';
import type { Machine } from '../machine.ts';
import { defaultPlayer, type Player } from '../player.ts';
import { Once } from '../../notation/document/once.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { readSource } from './read-source.ts';
import { shapes } from './shapes.ts';
import type { Reading } from '../../instruments/reading.ts';
import type { TemplateInstrument } from '../template.ts';
import { writtenSource } from '../written-source.ts';
import { entryOf, type YamlEntry, type YamlNode } from '../../notation/yaml/tree.ts';

const useIn = (reader: Reader, node: YamlNode, key: string, id: string | undefined): Use | null =>
  id === undefined ? null : { id, at: reader.placeIn(node, key) };

/** `empty` and `full` in any spelling, articulations as they are written; none twice. */
const readingsIn = (
  { faults }: Reader,
  node: YamlNode,
  measured: ReadonlyMap<string, number>,
): readonly Reading[] => {
  const once = new Once(faults, 'reading');
  const entries = entryOf(node, 'measured')?.value;
  return [...measured].map(([name, bytes]) => {
    const at = entryOf(entries, name)?.at ?? node.at;
    const folded = fold(name);
    once.see(folded, name, at);
    return { of: folded === 'empty' || folded === 'full' ? folded : name, bytes, at };
  });
};

/** What `instruments:` declares, in file order, each for its machine and player. */
export const readInstruments = (
  reader: Reader,
  machines: ReadonlyMap<string, Machine>,
  players: ReadonlyMap<string, Player>,
): readonly TemplateInstrument[] => {
  const defaults = reader.readTop(shapes.defaults, 'defaults');
  const group = reader.top('defaults')?.value ?? reader.root;
  const forMachine = useIn(reader, group, 'machine', defaults?.machine);
  const forPlayer = useIn(reader, group, 'player', defaults?.player);
  const toMachine = new Assigner(reader, 'machine', new Set(machines.keys()), forMachine);
  const toPlayer = new Assigner(reader, 'player', new Set(players.keys()), forPlayer);

  const read = (entry: YamlEntry): TemplateInstrument | null => {
    const { key: id, at, value: node } = entry;
    checkId(reader, 'instrument', entry);
    const fields = reader.read(shapes.instrument, node, ['instruments', id], at);
    if (fields === null) return null;
    const source = readSource(reader, entry, fields);
    const machine = toMachine.assign(id, at, useIn(reader, node, 'machine', fields.machine));
    const player = toPlayer.assign(id, at, useIn(reader, node, 'player', fields.player));
    const measured = readingsIn(reader, node, fields.measured ?? new Map<string, number>());
    if (source === null) return null;
    return {
      id,
      written: writtenSource(source),
      source,
      microphones: fields.microphones ?? null,
      machine,
      player: players.get(player) ?? defaultPlayer,
      settle: fields.settle ?? {},
      measured,
      at,
    };
  };
  const entries = reader.namedEntries('instruments');
  const instruments = entries.map(read).filter((instrument) => instrument !== null);
  toMachine.noteUnused();
  toPlayer.noteUnused();
  return instruments;
};
