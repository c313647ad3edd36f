import { fold } from '../../notation/fold.ts';
import { Once } from '../../notation/document/once.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { shapes } from './shapes.ts';
import { noHeadroom, type Template } from '../template.ts';

/** The keys at the top that stand for themselves. */
type Settings = Pick<
  Template,
  'cues' | 'reel' | 'split' | 'middleC' | 'names' | 'slack' | 'settle' | 'headroom'
>;

const readReel = (reader: Reader): readonly string[] | null => {
  const reel = reader.readTop(shapes.reel, 'reel');
  const once = new Once(reader.faults, 'cue');
  const node = reader.top('reel')?.value;
  const places = node?.kind === 'list' ? node.items : [];
  for (const [i, cue] of (reel ?? []).entries()) once.see(cue, cue, places[i]!.at);
  return reel;
};

const readNames = (reader: Reader): ReadonlyMap<string, string> => {
  const names = new Map<string, string>();
  const once = new Once(reader.faults, 'name');
  for (const { key, at, value } of reader.namedEntries('names')) {
    const word = fold(key);
    if (word === '') reader.faults.add(at, 'yaml-key-odd', () => ({ reason: 'empty' }));
    once.see(word, key, at);
    const articulation = reader.read(shapes.articulation, value, ['names', key], at);
    if (articulation !== null) names.set(word, articulation);
  }
  return names;
};

/** Reads the keys that stand for themselves, each with what holds where it is left out. */
export const readSettings = (reader: Reader): Settings => {
  const headroom = reader.readTop(shapes.headroom, 'headroom');
  const { keys = 0, velocity = 0, controller = 0 } = headroom ?? noHeadroom;
  return {
    cues: reader.readTop(shapes.cues, 'cues') ?? [],
    reel: readReel(reader),
    split: reader.readTop(shapes.split, 'split') ?? null,
    middleC: reader.readTop(shapes.middleC, 'middle-c') ?? 4,
    names: readNames(reader),
    slack: reader.readTop(shapes.slack, 'slack') ?? 0,
    settle: reader.readTop(shapes.settle, 'settle') ?? {},
    headroom: { keys, velocity, controller },
  };
};
