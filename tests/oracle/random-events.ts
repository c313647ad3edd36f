/**
 * Random cues for property tests: one to three channels, many events on the same tick, keys and
 * velocities at and beside the range limits of `random-bank.ts`.
 */
import fc from 'fast-check';
import type { OracleEvent } from './soundfont-events.ts';
import {
  gm2On,
  gmOff,
  gmOn,
  gsReset,
  masterCoarseTuning,
  rhythmPart,
  xgOn,
  xgReset,
} from './sysex.ts';

const keys = fc.constantFrom(0, 47, 48, 59, 60, 61, 71, 72, 127);
const velocities = fc.constantFrom(1, 63, 64, 65, 99, 100, 127);
const programs = fc.constantFrom(0, 1, 5, 7);
const devices = fc.constantFrom(0x00, 0x10, 0x7f, 0x11);
const semitones = fc.constantFrom(-12, -1, 0, 1, 2);
const bankHighs = fc.constantFrom(0, 1, 2, 9, 119, 120, 121, 125, 126, 127);
const bankLows = fc.constantFrom(0, 1, 2, 9);
/** How many channels controller 126 covers: all, one, and up to or just short of another in use. */
const monoCounts = fc.constantFrom(0, 1, 3, 4, 127);

/** An event that has no tick yet. */
type Timeless = OracleEvent extends infer Event
  ? Event extends OracleEvent
    ? Omit<Event, 'tick'>
    : never
  : never;

const parts = fc.constantFrom(0, 1, 2, 4, 10, 15);

/** Messages that mean something, and a few that are only nearly right. */
const sysexData: fc.Arbitrary<number[]> = fc.oneof(
  devices.map(gmOn),
  devices.map(gm2On),
  devices.map(gmOff),
  devices.map((device) => gsReset(device)),
  devices.map((device) => gsReset(device, 0x7f)),
  devices.map(xgOn),
  devices.map(xgReset),
  fc.tuple(devices, parts, fc.constantFrom(0, 1, 2)).map((args) => rhythmPart(...args)),
  fc.tuple(devices, parts, fc.constantFrom(0, 1, 2)).map((args) => rhythmPart(...args)),
  fc.tuple(devices, semitones).map((args) => masterCoarseTuning(...args)),
  devices.map((device) => gsReset(device).with(-1, 0x40)),
  devices.map((device) => [...gmOn(device), 0x00]),
  devices.map((device) => [...xgReset(device), 0x00]),
  fc.tuple(devices, parts).map(([device, part]) => rhythmPart(device, part, 3)),
);

const sysex = sysexData.map((data): Timeless => ({ kind: 'sysex', data }));

function controller(
  channel: number,
  number: number,
  values: fc.Arbitrary<number>,
): fc.Arbitrary<Timeless> {
  return values.map((value) => ({ kind: 'controller', channel, number, value }));
}

function single(channel: number): fc.Arbitrary<Timeless> {
  const noteOn = fc
    .tuple(keys, velocities)
    .map(([key, velocity]): Timeless => ({ kind: 'note-on', channel, key, velocity }));
  const noteOff = fc.oneof(
    keys.map((key): Timeless => ({ kind: 'note-off', channel, key })),
    keys.map((key): Timeless => ({ kind: 'note-on', channel, key, velocity: 0 })),
  );
  const program = programs.map((number): Timeless => ({
    kind: 'program',
    channel,
    program: number,
  }));
  return fc.oneof(
    { weight: 10, arbitrary: noteOn },
    { weight: 4, arbitrary: noteOff },
    { weight: 4, arbitrary: program },
    { weight: 3, arbitrary: controller(channel, 0, bankHighs) },
    { weight: 2, arbitrary: controller(channel, 32, bankLows) },
    { weight: 2, arbitrary: controller(channel, 68, fc.constantFrom(0, 63, 64, 127)) },
    { weight: 1, arbitrary: controller(channel, 126, monoCounts) },
    { weight: 1, arbitrary: controller(channel, 127, fc.constant(0)) },
    {
      weight: 1,
      arbitrary: fc
        .constantFrom(120, 121, 123, 124, 125)
        .chain((number) => controller(channel, number, fc.constant(0))),
    },
    {
      weight: 1,
      arbitrary: fc
        .constantFrom(98, 99, 100, 101)
        .chain((number) => controller(channel, number, fc.constantFrom(0, 1, 2, 127))),
    },
    {
      weight: 1,
      arbitrary: controller(
        channel,
        6,
        semitones.map((n) => 64 + n),
      ),
    },
    { weight: 2, arbitrary: sysex },
  );
}

/** A few events that belong together and would rarely meet by chance. */
function phrase(channel: number): fc.Arbitrary<Timeless[]> {
  const tuning = semitones.map((n): Timeless[] => [
    { kind: 'controller', channel, number: 101, value: 0 },
    { kind: 'controller', channel, number: 100, value: 2 },
    { kind: 'controller', channel, number: 6, value: 64 + n },
  ]);
  const bankAndProgram = fc
    .tuple(bankHighs, bankLows, programs, keys, velocities)
    .chain(([high, low, program, key, velocity]) =>
      fc.shuffledSubarray<Timeless>(
        [
          { kind: 'controller', channel, number: 0, value: high },
          { kind: 'controller', channel, number: 32, value: low },
          { kind: 'program', channel, program },
          { kind: 'note-on', channel, key, velocity },
        ],
        { minLength: 2 },
      ),
    );
  const legato = fc
    .tuple(
      fc.constantFrom([68, 127], [126, 1], [126, 0]),
      fc.constantFrom(null, null, 68, 120, 121, 123, 127),
      ...[keys, keys, velocities, velocities],
    )
    .map(([[number = 68, value = 127], ending, first, second, v1, v2]): Timeless[] => [
      { kind: 'controller', channel, number, value },
      { kind: 'note-on', channel, key: first, velocity: v1 },
      { kind: 'note-on', channel, key: second, velocity: v2 },
      ...(ending === null
        ? []
        : [{ kind: 'controller', channel, number: ending, value: 0 } as const]),
      { kind: 'note-off', channel, key: second },
    ]);
  return fc.oneof(
    { weight: 8, arbitrary: single(channel).map((event) => [event]) },
    { weight: 2, arbitrary: bankAndProgram },
    { weight: 1, arbitrary: tuning },
    { weight: 1, arbitrary: legato },
  );
}

/** The step before an event: mostly none, so that ticks hold clusters. */
const steps = fc.oneof(
  { weight: 5, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.constant(1) },
  { weight: 1, arbitrary: fc.constant(120) },
);

/** Five to sixty events in file order, on one port. */
export function randomEvents(): fc.Arbitrary<OracleEvent[]> {
  return fc
    .shuffledSubarray([0, 3, 9, 15], { minLength: 1, maxLength: 3 })
    .chain((channels) =>
      fc.array(fc.constantFrom(...channels).chain(phrase), {
        minLength: 5,
        maxLength: 45,
        size: 'max',
      }),
    )
    .map((phrases) => phrases.flat().slice(0, 60))
    .chain((events) =>
      fc
        .array(steps, { minLength: events.length, maxLength: events.length })
        .map((distances) => inTime(events, distances)),
    );
}

function inTime(events: readonly Timeless[], distances: readonly number[]): OracleEvent[] {
  let tick = 0;
  return events.map((event, index) => {
    tick += distances[index] ?? 0;
    return { ...event, tick };
  });
}
