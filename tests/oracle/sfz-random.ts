/**
 * Random SFZ instruments and reels for property tests. Most regions of an instrument can be played by
 * most reels, and every family of opcodes turns up now and then.
 *
 * Left out, because the readings do not decide them: pedals on controllers that RP-015 resets apart
 * from 64 and 66, gates on channel mode messages, sw_last together with a range of switches.
 */
import fc from 'fast-check';
import type { SfzCue, SfzData, SfzEvent, SfzHeader, SfzReel } from './sfz-data.ts';
import { conditionFamily, controls, keyRanges, type Opcodes } from './sfz-random-opcodes.ts';

export interface RandomSfzOptions {
  /** False: no controller ever makes a region silent. Default true. */
  readonly fades?: boolean;
}

const nothing: Opcodes = fc.constant([]);

/** Two to twelve regions, with headers above some of them. */
export function randomSfz({ fades = true }: RandomSfzOptions = {}): fc.Arbitrary<SfzData> {
  const family = conditionFamily(fades);
  const some = (most: number): Opcodes =>
    fc.array(family, { maxLength: most, size: 'max' }).map((families) => families.flat());
  const header = (name: string, opcodes: Opcodes): fc.Arbitrary<SfzHeader> =>
    opcodes.map((given) => ({ name, opcodes: given }));
  const rarely = (opcodes: Opcodes): Opcodes =>
    fc.oneof({ weight: 3, arbitrary: nothing }, { weight: 1, arbitrary: opcodes });

  const region = header(
    'region',
    fc.tuple(keyRanges, some(2)).map(([range, more]) => [...range, ...more]),
  );
  const curve: SfzHeader[] = [
    {
      name: 'curve',
      opcodes: [
        ['curve_index', '7'],
        ['v020', '0'],
        ['v100', '0'],
      ],
    },
    {
      name: 'curve',
      opcodes: [
        ['curve_index', '8'],
        ['v000', '1'],
        ['v064', '0'],
        ['v127', '0'],
      ],
    },
  ];
  // Now and then all regions are cut by group 1, so that a silent start of it can be noticed.
  const sound = fc
    .tuple(fc.constantFrom('', '', '', '1'), rarely(some(1)))
    .map(([cut, more]): SfzHeader => {
      const offBy: SfzHeader['opcodes'] = cut === '' ? [] : [['off_by', cut]];
      return { name: 'global', opcodes: [['sample', 'a.wav'], ...offBy, ...more] };
    });
  const block = fc.tuple(
    fc.oneof(
      { weight: 4, arbitrary: header('group', rarely(some(1))) },
      { weight: 1, arbitrary: header('master', rarely(some(1))) },
      { weight: 1, arbitrary: sound },
      { weight: 1, arbitrary: header('control', controls) },
    ),
    fc.array(region, { minLength: 2, maxLength: 4, size: 'max' }),
  );
  return fc
    .tuple(controls, sound, fc.array(block, { minLength: 1, maxLength: 3, size: 'max' }))
    .map(([control, first, blocks]) => ({
      control,
      headers: [...(fades ? curve : []), first, ...blocks.flat(2)],
    }));
}

/** An event without its place in time. */
type Message = Pick<SfzEvent, 'channel' | 'kind' | 'data1' | 'data2'>;

const keys = fc.constantFrom(58, 59, 60, 60, 60, 61, 62);
const switches = fc.constantFrom(24, 25, 26, 27);
const velocities = fc.constantFrom(1, 40, 41, 64, 100, 127);
const values = fc.constantFrom(0, 1, 19, 20, 63, 64, 100, 126, 127);

/** One to three messages that belong together. */
function phrase(channel: number): fc.Arbitrary<Message[]> {
  const message = (kind: Message['kind'], data1: number, data2 = 0): Message => {
    return { channel, kind, data1, data2 };
  };
  const struck = fc.oneof({ weight: 3, arbitrary: keys }, { weight: 1, arbitrary: switches });
  const noteOn = fc.tuple(struck, velocities).map(([key, v]) => [message('note-on', key, v)]);
  const noteOff = fc
    .tuple(struck, fc.boolean())
    .map(([key, zero]) => [message(zero ? 'note-on' : 'note-off', key)]);
  const note = fc
    .tuple(struck, velocities)
    .map(([key, v]) => [message('note-on', key, v), message('note-off', key, 64)]);
  const held = fc
    .tuple(keys, velocities, fc.constantFrom(1, 1, 2, 7, 20), values, fc.boolean())
    .map(([key, v, number, value, inTail]) => {
      const moved = message('controller', number, value);
      const off = message('note-off', key);
      return [message('note-on', key, v), ...(inTail ? [off, moved] : [moved, off])];
    });
  const controller = (
    numbers: fc.Arbitrary<number>,
    given: fc.Arbitrary<number>,
  ): fc.Arbitrary<Message[]> =>
    fc.tuple(numbers, given).map(([number, value]) => [message('controller', number, value)]);

  return fc.oneof(
    { weight: 6, arbitrary: noteOn },
    { weight: 5, arbitrary: noteOff },
    { weight: 6, arbitrary: note },
    { weight: 6, arbitrary: held },
    { weight: 6, arbitrary: controller(fc.constantFrom(1, 1, 2, 20, 20, 7, 11), values) },
    { weight: 3, arbitrary: controller(fc.constantFrom(64, 64, 66), values) },
    { weight: 1, arbitrary: controller(fc.constantFrom(121), fc.constant(0)) },
    { weight: 1, arbitrary: controller(fc.constantFrom(120, 123, 123, 125), fc.constant(0)) },
    { weight: 1, arbitrary: fc.constantFrom(0, 1, 4, 5).map((p) => [message('program', p)]) },
    {
      weight: 1,
      arbitrary: fc
        .constantFrom(-8192, -1, 0, 1, 100, 8191)
        .map((b) => [message('bend', (b + 8192) % 128, Math.floor((b + 8192) / 128))]),
    },
    { weight: 1, arbitrary: values.map((value) => [message('pressure', value)]) },
    {
      weight: 1,
      arbitrary: fc.tuple(keys, values).map(([key, v]) => [message('poly-pressure', key, v)]),
    },
  );
}

/** The step before an event: mostly none, so that ticks hold clusters. */
const steps = fc.oneof(
  { weight: 6, arbitrary: fc.constant(0) },
  { weight: 2, arbitrary: fc.constant(1) },
  { weight: 3, arbitrary: fc.constant(120) },
);

const tempos = fc
  .array(fc.tuple(fc.constantFrom(0, 1, 120, 240, 360), fc.constantFrom(60, 99.5, 140)), {
    maxLength: 2,
  })
  .map((changes) => changes.map(([tick, bpm]) => ({ tick, bpm })).sort((a, b) => a.tick - b.tick));

const cues: fc.Arbitrary<SfzCue> = fc
  .constantFrom([0], [0], [0, 5])
  .chain((channels) =>
    fc.array(fc.constantFrom(...channels).chain(phrase), {
      minLength: 6,
      maxLength: 24,
      size: 'max',
    }),
  )
  .map((phrases) => phrases.flat().slice(0, 40))
  .chain((messages) =>
    fc.tuple(
      fc.constant(messages),
      fc.array(steps, { minLength: messages.length, maxLength: messages.length }),
      tempos,
    ),
  )
  .map(([messages, distances, changes]) => ({
    events: inTime(messages, distances),
    tempos: changes,
  }));

/** One or two cues of up to 40 events. A tick is 1/960 of a second, whatever the tempo says. */
export function randomReel(): fc.Arbitrary<SfzReel> {
  return fc.oneof(
    { weight: 2, arbitrary: fc.tuple(cues) },
    { weight: 1, arbitrary: fc.tuple(cues, cues) },
  );
}

function inTime(messages: readonly Message[], distances: readonly number[]): SfzEvent[] {
  let tick = 0;
  return messages.map((message, i) => {
    tick += distances[i] ?? 0;
    return { tick, seconds: tick / 960, ...message };
  });
}
