/**
 * Notes joined under the legato pedal (controller 68) are started again by players of one note at a time,
 * and differently by different players. Whatever was started again goes with its key: no voice of a
 * phrase lasts into the next one.
 */
import { writeMidi, type MidiEvent } from 'midi-file';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';

type Placed = readonly [tick: number, event: object];

const on = (tick: number, noteNumber: number): Placed => [
  tick,
  { type: 'noteOn', channel: 0, noteNumber, velocity: 80 },
];
const off = (tick: number, noteNumber: number): Placed => [
  tick,
  { type: 'noteOff', channel: 0, noteNumber, velocity: 0 },
];
const control = (tick: number, controllerType: number, value: number): Placed => [
  tick,
  { type: 'controller', channel: 0, controllerType, value },
];

const cueOf = (events: readonly Placed[]): Uint8Array => {
  const placed: readonly Placed[] = [
    [0, { type: 'trackName', text: 'Ob' }],
    ...[...events].sort(([a], [b]) => a - b),
    [9600, { type: 'endOfTrack' }],
  ];
  const track = placed.map(([tick, event], i) => ({
    ...event,
    deltaTime: tick - (placed[i - 1]?.[0] ?? 0),
  })) as MidiEvent[];
  const header = { format: 1, numTracks: 1, ticksPerBeat: 480 } as const;
  return Uint8Array.from(writeMidi({ header, tracks: [track] }));
};

/** The key of each phrase's notes in turn; each runs 40 ticks into the next. */
const phrase = (from: number, keys: readonly number[]): readonly Placed[] =>
  keys.flatMap((key, i) => [
    on(from + 480 * i, key),
    off(from + 480 * (i + 1) + (i < keys.length - 1 ? 40 : -20), key),
  ]);

const reasonsOf = async (events: readonly Placed[]) => {
  const files = new MemoryFiles({
    'keepset.yaml': `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, shares: machine, unloads: sample } }
instruments: { oboe: { zones: oboe.csv, middle-c: C4 } }
routes: [{ track: '*', instrument: oboe }]
settle: { start-state: plain, tail: plain, engine: plain, smoothing: plain, pedal-held: plain }
`,
    'oboe.csv': `key,keys,controllers,release,bytes
soft,60-71,1:0-100,,1000
loud,60-71,1:101-127,,2000
after,60-71,,yes,4000
`,
    'cues/1m1.mid': cueOf(events),
  });
  const { instruments } = await plan({ files });
  const kept = instruments[0]!.kept.map(
    ({ key, reasons, notes }): [string, readonly [string, number]] => [
      key ?? '',
      [reasons.join(), notes],
    ],
  );
  return Object.fromEntries(kept);
};

const legato = [control(0, 1, 60), control(0, 68, 127)];
const twoPhrases = [...phrase(480, [60, 62, 64, 62, 60]), ...phrase(3360, [64, 62, 60, 62])];

test('a swell after the last note is heard by none of them', async () => {
  const events = [...legato, ...twoPhrases, control(7200, 1, 120)];
  expect(await reasonsOf(events)).toEqual({ soft: ['played', 9], after: ['played', 9] });
});

test('a swell under a note of the second phrase is heard by that note alone', async () => {
  // The last note of the second phrase begins at 3360 + 3 x 480 and ends at 5260.
  const events = [...legato, ...twoPhrases, control(5000, 1, 120)];
  expect(await reasonsOf(events)).toEqual({
    soft: ['played', 9],
    loud: ['played', 1],
    after: ['played', 9],
  });
});
