import { defaultMachine } from './machine.ts';
import { defaultPlayer } from './player.ts';
import type { Pattern } from './patterns/pattern.ts';
import { unchanged } from './route.ts';
import { noHeadroom, type InstrumentSource, type Template } from './template.ts';
import { writtenSource } from './written-source.ts';

const anyName: Pattern = { text: '*', pieces: ['', ''], captures: [null] };

/**
 * What stands in for a template when one instrument plays everything.
 *
 * @param id names the instrument in the result
 * @param source where it is
 */
export const singleTemplate = (id: string, source: InstrumentSource): Template => ({
  path: null,
  sha256: null,
  cues: [],
  reel: null,
  split: null,
  middleC: 4,
  machines: [defaultMachine],
  instruments: [
    {
      id,
      written: writtenSource(source),
      source,
      microphones: null,
      machine: defaultMachine.id,
      player: defaultPlayer,
      settle: {},
      measured: [],
      at: {},
    },
  ],
  routes: [
    {
      tracks: [anyName],
      cue: null,
      port: null,
      channel: null,
      join: null,
      outcome: {
        kind: 'play',
        instruments: [id],
        articulation: null,
        transform: unchanged,
        printed: false,
      },
      rule: 'track "*"',
      file: source.path,
      at: {},
    },
  ],
  names: new Map(),
  slack: 0,
  settle: {},
  headroom: noHeadroom,
  pins: [],
  findings: [],
});
