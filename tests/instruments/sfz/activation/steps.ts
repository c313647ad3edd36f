import type { Score } from '../../../../src/midi/score.ts';

/** What happens in a cue: a channel message, or a new tempo in beats per minute. */
export type PlayedEvent =
  | { readonly tick: number; readonly bytes: readonly [number, number, number] }
  | { readonly tick: number; readonly bpm: number };

/** Ticks from one step to the next: half a second at 120 beats a minute. */
const stepTicks = 480;

const messages: Readonly<
  Record<string, (one: number, two: number | undefined) => [number, number, number]>
> = {
  on: (key, velocity = 100) => [0x90, key, velocity],
  off: (key) => [0x80, key, 64],
  pat: (key, value = 0) => [0xa0, key, value],
  cc: (number, value = 0) => [0xb0, number, value],
  pc: (program) => [0xc0, program, 0],
  at: (value) => [0xd0, value, 0],
  pb: (bend) => [0xe0, (bend + 8192) & 0x7f, (bend + 8192) >> 7],
};

const step = /^(\+ )?([a-z]+) (-?[\d.]+)(?: (\d+))?(?: ch (\d+))?$/u;

/**
 * Reads a cue as words, a step each: `on 60 90` (velocity 100 if none is given), `off 60`,
 * `cc 1 64`, `pb -100` (bend from the centre), `at 56` (channel pressure), `pat 60 80` (poly
 * pressure), `pc 5`, `bpm 90`. `ch 3` at the end: on channel 3 instead of 1. Each step comes later
 * than the one before, or on the same tick with `+` in front.
 */
export const eventsOf = (steps: readonly string[]): readonly PlayedEvent[] => {
  let tick = -stepTicks;
  return steps.map((text) => {
    const [found, same, word = '', one, two, channel = '1'] = step.exec(text) ?? [];
    if (found === undefined) throw new Error(`not a step: ${text}`);
    if (same === undefined) tick += stepTicks;
    if (word === 'bpm') return { tick, bpm: Number(one) };
    const message = messages[word];
    if (message === undefined) throw new Error(`no such event: ${text}`);
    const [status, ...data] = message(Number(one), two === undefined ? undefined : Number(two));
    return { tick, bytes: [status | (Number(channel) - 1), ...data] };
  });
};

/** A score of one track, and for each event of the track the step it comes from. */
export const scoreOf = (
  events: readonly PlayedEvent[],
): { readonly score: Score; readonly stepOf: readonly number[] } => {
  const tempo = [{ tick: 0, microsecondsPerQuarter: 500_000 }];
  const rows: { readonly tick: number; readonly bytes: readonly [number, number, number] }[] = [];
  const stepOf: number[] = [];
  events.forEach((event, index) => {
    if ('bytes' in event) {
      rows.push(event);
      stepOf.push(index);
      return;
    }
    const change = { tick: event.tick, microsecondsPerQuarter: Math.round(60e6 / event.bpm) };
    if (event.tick === 0) tempo[0] = change;
    else tempo.push(change);
  });
  const score: Score = {
    format: 1,
    timelines: [
      {
        division: { kind: 'metrical', ticksPerQuarter: 480 },
        tempo,
        meter: [{ tick: 0, beats: 4, unit: 4 }],
        markers: [],
        smpteOffset: null,
        timecode: null,
      },
    ],
    tracks: [
      {
        index: 0,
        name: null,
        instrumentName: null,
        deviceName: null,
        timeline: 0,
        events: {
          length: rows.length,
          tick: Float64Array.from(rows, ({ tick }) => tick),
          status: Uint8Array.from(rows, ({ bytes }) => bytes[0]),
          data1: Uint8Array.from(rows, ({ bytes }) => bytes[1]),
          data2: Uint8Array.from(rows, ({ bytes }) => bytes[2]),
        },
        sysex: [],
        ports: [{ from: 0, port: 0 }],
        end: events.at(-1)?.tick ?? 0,
        damage: null,
      },
    ],
    missingTracks: 0,
    findings: [],
  };
  return { score, stepOf };
};
