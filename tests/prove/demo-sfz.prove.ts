/**
 * The demo's SFZ instruments, region by region and with every doubt, against the naive SFZ player,
 * which imports nothing of keepset and is given the opcodes by a reader of this test's own. Takes some
 * minutes.
 */
import { parseMidi } from 'midi-file';
import { beforeAll, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { doubtBits, minimal } from '../oracle/doubts.ts';
import type { SfzCue, SfzData, SfzEvent } from '../oracle/sfz-data.ts';
import { playSfz } from '../oracle/sfz-player.ts';
import { onlyPart } from './seeded.ts';

const demo = demoFiles();
const textOf = (path: string): string =>
  new TextDecoder().decode(demo.find((file) => file.path === path)!.bytes);

/** Lines of an instrument, those of included files in their place, variables put in. */
const linesOf = (path: string): readonly string[] => {
  const variables: [name: string, value: string][] = [];
  const read = (name: string): readonly string[] =>
    textOf(`instruments/${name}`)
      .split('\n')
      .flatMap((line) => {
        const include = /^#include "(.+)"$/.exec(line)?.[1];
        if (include !== undefined) return read(include);
        const [, variable, value] = /^#define (\$\w+) (\S+)$/.exec(line) ?? [];
        if (variable !== undefined) variables.push([variable, value!]);
        if (!line.startsWith('<')) return [];
        return [variables.reduce((text, [from, to]) => text.replaceAll(from, to), line)];
      });
  return read(path);
};

const dataOf = (path: string): SfzData => ({
  headers: linesOf(path).map((line) => {
    const [, name, rest] = /^<(\w+)>(.*)$/.exec(line)!;
    const opcodes = [...rest!.matchAll(/ (\w+)=(.*?)(?= \w+=|$)/g)];
    return { name: name!, opcodes: opcodes.map(([, opcode, value]) => [opcode!, value!]) };
  }),
});

/** Controllers that these instruments ask for: wheel and pedals; no cue resets any. */
const heeded: ReadonlySet<number> = new Set([1, 64, 66, 67]);

/** The events of one track, in seconds by the tempo changes of track 0. */
const cueOf = (bytes: Uint8Array, trackName: string): SfzCue => {
  const { tracks } = parseMidi(bytes);
  let tick = 0;
  const tempos = tracks[0]!.flatMap((event) => {
    tick += event.deltaTime;
    return event.type === 'setTempo' ? [{ tick, micros: event.microsecondsPerBeat }] : [];
  });
  const seconds = (at: number): number =>
    tempos.reduce((sum, { tick: from, micros }, i) => {
      const to = Math.min(at, tempos[i + 1]?.tick ?? Infinity);
      return to > from ? sum + ((to - from) * micros) / 480 / 1e6 : sum;
    }, 0);
  const track = tracks.find(([first]) => first?.type === 'trackName' && first.text === trackName);
  tick = 0;
  const events = (track ?? []).flatMap((event): readonly SfzEvent[] => {
    tick += event.deltaTime;
    const at = { tick, seconds: seconds(tick) };
    switch (event.type) {
      case 'noteOn':
      case 'noteOff': {
        const { channel, noteNumber: data1, velocity: data2 } = event;
        const kind = event.type === 'noteOn' && data2 > 0 ? 'note-on' : 'note-off';
        return [{ ...at, kind, channel, data1, data2 }];
      }
      case 'controller': {
        const { channel, controllerType: data1, value: data2 } = event;
        if (!heeded.has(data1)) return []; // the naive player goes through all that it is given
        return [{ ...at, kind: 'controller', channel, data1, data2 }];
      }
      case 'programChange':
        return [
          { ...at, kind: 'program', channel: event.channel, data1: event.programNumber, data2: 0 },
        ];
      default:
        return [];
    }
  });
  return {
    events,
    tempos: tempos.map(({ tick: on, micros }) => ({ tick: on, bpm: 6e7 / micros })),
  };
};

let made: Plan;
beforeAll(async () => {
  const files = new MemoryFiles(Object.fromEntries(demo.map(({ path, bytes }) => [path, bytes])));
  made = await plan({ template: 'sfz.yaml', files });
}, 120_000);

const bitsOf = (names: readonly string[]): number =>
  names.reduce(
    (bits, name) => bits | (doubtBits as Readonly<Record<string, number>>)[camel(name)]!,
    0,
  );
const camel = (name: string): string =>
  name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());

interface Kept {
  readonly region: number;
  /** Doubt sets, ascending; or what is kept because it stops others. */
  readonly sets: readonly number[] | 'mutes';
}

if (onlyPart) console.log('left out: chamber-strings.sfz, which takes minutes');

test.each([
  ...(onlyPart
    ? []
    : [{ id: 'chamber', path: 'chamber-strings.sfz', tracks: ['Chamber', 'Chamber low'] }]),
  { id: 'clarinet', path: 'clarinet.sfz', tracks: ['Cl 1'] },
  { id: 'deck', path: 'deck.sfz', tracks: ['Deck perc'] },
  { id: 'upright', path: 'upright.sfz', tracks: ['Upright'] },
])('$id', { timeout: 0 }, ({ id, path, tracks }) => {
  const data = dataOf(path);
  const cues = demo.filter((file) => file.path.endsWith('.mid'));
  const copies = tracks.map((name) =>
    playSfz(
      data,
      cues.map(({ bytes }) => cueOf(bytes, name)).filter(({ events }) => events.length > 0),
    ),
  );
  const expected = copies[0]!.regions.flatMap((_, region): readonly Kept[] => {
    const reached = copies.flatMap(({ regions }) => regions[region]!.reached.map(bitsOf));
    const mutes = copies.some(({ regions }) => regions[region]!.mutes.length > 0);
    if (reached.length > 0) return [{ region, sets: [...minimal(reached)].sort((a, b) => a - b) }];
    return mutes ? [{ region, sets: 'mutes' }] : [];
  });
  expect(expected.length).toBeGreaterThan(12);
  const { kept } = made.instruments.find((one) => one.id === id)!;
  expect(
    kept.map(({ zone, reasons, doubts }) => ({
      region: zone,
      sets: reasons.includes('mutes') ? 'mutes' : doubts.map(bitsOf).sort((a, b) => a - b),
    })),
  ).toEqual(expected);
});
