import { createHash } from 'node:crypto';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { readTemplate } from '../../src/template/read-template.ts';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { routeScore } from '../../src/template/routes/route-score.ts';
import type { Template } from '../../src/template/template.ts';

const digest = (parts: readonly Uint8Array[]): string =>
  createHash('sha256').update(Buffer.concat(parts)).digest('hex');

/** Reads a text as keepset reads a template. */
export const templateOf = (text: string): Promise<Template> =>
  readTemplate(new MemoryFiles({ 'keepset.yaml': text }), 'keepset.yaml', digest);

/** Where a part goes: the name of its track, its channel from 1, and the copies that it drives. */
export interface Destination {
  readonly name: string | null;
  readonly channel: number;
  readonly instruments: readonly string[];
  readonly copies: readonly string[];
}

/** What a template does with a cue. */
export interface AllRouted {
  readonly destinations: readonly Destination[];
  /** Names of tracks that no rule takes. */
  readonly unmapped: readonly (string | null)[];
}

/** Sends the parts of a cue where a template says. */
export const routeAll = (
  template: Template,
  bytes: Uint8Array,
  log = new RouteLog(),
  cue = '1m1',
): AllRouted => {
  const score = readMidi(bytes, 'cue.mid');
  const parts = partsOf(score);
  const { copies, unmapped } = routeScore(template, cue, score, parts, 0, new Map(), log);
  return {
    destinations: parts
      .filter(({ notes }) => notes > 0)
      .map(({ track, channel }) => {
        const own = copies.filter(({ sources }) =>
          sources.some((one) => one.track === track && ((one.channels >> channel) & 1) === 1),
        );
        return {
          name: score.tracks[track]!.name,
          channel: channel + 1,
          instruments: own.map(({ instrument }) => instrument),
          copies: own.map(({ name }) => name),
        };
      }),
    unmapped: unmapped.map(({ track }) => score.tracks[track]!.name),
  };
};
