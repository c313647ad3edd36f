import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { parseMidi } from 'midi-file';
import type { SfzCue, SfzData, SfzEvent } from '../oracle/sfz-data.ts';

/**
 * SFZ files and cues from the disk as the naive player takes them. For files as the demo has them: a
 * header stands at the beginning of a line with its opcodes behind it, and an include or a definition on
 * a line of its own.
 */
const linesOf = async (file: string): Promise<readonly string[]> => {
  const variables: [name: string, value: string][] = [];
  const read = async (name: string): Promise<readonly string[]> => {
    const lines: string[] = [];
    for (const line of (await readFile(path.join(path.dirname(file), name), 'utf8')).split('\n')) {
      const include = /^#include "(.+)"$/.exec(line)?.[1];
      if (include !== undefined) lines.push(...(await read(include)));
      const [, variable, value] = /^#define (\$\w+) (\S+)$/.exec(line) ?? [];
      if (variable !== undefined) variables.push([variable, value!]);
      if (!line.startsWith('<')) continue;
      lines.push(variables.reduce((text, [from, to]) => text.replaceAll(from, to), line));
    }
    return lines;
  };
  return read(path.basename(file));
};

export const sfzData = async (file: string): Promise<SfzData> => ({
  headers: (await linesOf(file)).map((line) => {
    const [, name, rest] = /^<(\w+)>(.*)$/.exec(line)!;
    const opcodes = [...rest!.matchAll(/ (\w+)=(.*?)(?= \w+=|$)/g)];
    return { name: name!, opcodes: opcodes.map(([, opcode, value]) => [opcode!, value!]) };
  }),
});

/** The events of one track, in seconds by the tempo changes of the first; null where it has none. */
export const trackOf = async (
  cue: string,
  trackName: string,
  heeded: ReadonlySet<number>,
): Promise<SfzCue | null> => {
  const { header, tracks } = parseMidi(await readFile(cue));
  let tick = 0;
  const tempos = tracks[0]!.flatMap((event) => {
    tick += event.deltaTime;
    return event.type === 'setTempo' ? [{ tick, micros: event.microsecondsPerBeat }] : [];
  });
  const seconds = (at: number): number =>
    tempos.reduce((sum, { tick: from, micros }, i) => {
      const to = Math.min(at, tempos[i + 1]?.tick ?? Infinity);
      return to > from ? sum + ((to - from) * micros) / header.ticksPerBeat! / 1e6 : sum;
    }, 0);
  const track = tracks.find(([first]) => first?.type === 'trackName' && first.text === trackName);
  tick = 0;
  const events = (track ?? []).flatMap((event): readonly SfzEvent[] => {
    tick += event.deltaTime;
    const at = { tick, seconds: seconds(tick) };
    if (event.type === 'noteOn' || event.type === 'noteOff') {
      const { channel, noteNumber: data1, velocity: data2 } = event;
      const kind = event.type === 'noteOn' && data2 > 0 ? 'note-on' : 'note-off';
      return [{ ...at, kind, channel, data1, data2 }];
    }
    if (event.type === 'controller' && heeded.has(event.controllerType)) {
      const { channel, controllerType: data1, value: data2 } = event;
      return [{ ...at, kind: 'controller', channel, data1, data2 }];
    }
    if (event.type === 'programChange') {
      const { channel, programNumber: data1 } = event;
      return [{ ...at, kind: 'program', channel, data1, data2: 0 }];
    }
    return [];
  });
  if (events.length === 0) return null;
  return {
    events,
    tempos: tempos.map(({ tick: on, micros }) => ({ tick: on, bpm: 6e7 / micros })),
  };
};
