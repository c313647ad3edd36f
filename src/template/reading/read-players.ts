import { checkId } from './declared.ts';
import { exampleAt } from './keys.ts';
import { defaultPlayer, type Player } from '../player.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { missingKey } from '../../notation/document/shape-faults.ts';
import { shapes } from './shapes.ts';

/** What `players:` declares, by id; those with a fault are as the default player. */
export const readPlayers = (reader: Reader): ReadonlyMap<string, Player> => {
  const players = new Map<string, Player>();
  for (const entry of reader.namedEntries('players')) {
    const { key: id, at, value } = entry;
    const path = ['players', id];
    checkId(reader, 'player', entry);
    const read = reader.read(shapes.player, value, path, at);
    players.set(id, { ...defaultPlayer, id });
    if (read === null) continue;
    const { loads, head = null, width = 'source', factor = 1, shares, unloads } = read;
    if (loads === 'streamed' && head === null) missingKey(reader, value, at, path, 'head');
    if (loads === 'whole' && head !== null) {
      reader.faults.add(reader.keyIn(value, 'head'), 'template-key-alone', () => ({
        path: [...path, 'head'],
        needs: 'streamed',
        example: exampleAt([...path, 'head']),
      }));
    }
    const perZone = read['per-zone'] ?? 0;
    const perCopy = read['per-copy'] ?? 0;
    const loadRate = read['load-rate'] ?? null;
    const sizes = { loads, head, width, factor, perZone, perCopy };
    players.set(id, { id, ...sizes, shares, unloads, loadRate });
  }
  return players;
};
