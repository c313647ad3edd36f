import fc from 'fast-check';
import type { RawCue, RawEvent } from './raw-cue.ts';

const data7 = fc.nat(127);
const channel = fc.nat(15);

/** An event without its tick; packets come as a list, so that messages are whole. */
type Step = readonly Untimed[];
type Untimed = RawEvent extends infer Event
  ? Event extends RawEvent
    ? Omit<Event, 'tick'>
    : never
  : never;

const message: fc.Arbitrary<Step> = fc
  .tuple(
    fc.constantFrom(0x80, 0x90, 0x90, 0xa0, 0xb0, 0xb0, 0xc0, 0xd0, 0xe0),
    channel,
    data7,
    data7,
  )
  .map(([kind, on, first, second]) => [
    {
      kind: 'message',
      bytes: [kind + on, first, ...(kind === 0xc0 || kind === 0xd0 ? [] : [second])],
    },
  ]);

const meta = (type: number, ...data: readonly fc.Arbitrary<number>[]): fc.Arbitrary<Step> =>
  fc.tuple(...data).map((bytes) => [{ kind: 'meta', type, data: bytes }]);

const byte = fc.nat(255);
const text: fc.Arbitrary<Step> = fc
  .tuple(
    fc.constantFrom(0x01, 0x02, 0x03, 0x03, 0x04, 0x05, 0x06, 0x07, 0x08, 0x09, 0x4b, 0x7f),
    fc.oneof(
      fc.array(byte, { maxLength: 20 }),
      fc.string({ unit: 'grapheme', maxLength: 10 }).map((letters) => [...Buffer.from(letters)]),
    ),
  )
  .map(([type, data]) => [{ kind: 'meta', type, data }]);

const sysex: fc.Arbitrary<Step> = fc
  .array(fc.array(data7, { maxLength: 10 }), { minLength: 1, maxLength: 3 })
  .map((packets) =>
    packets.map((data, index) => ({
      kind: 'packet',
      status: index === 0 ? 0xf0 : 0xf7,
      data: index === packets.length - 1 ? [...data, 0xf7] : data,
    })),
  );

/** Whole channel messages and others in an F7 packet. */
const escape: fc.Arbitrary<Step> = fc
  .array(
    fc.oneof(
      message.map(([event]) => (event?.kind === 'message' ? event.bytes : [])),
      fc.constantFrom([0xf3, 0x05], [0xf2, 0x01, 0x02], [0xf6], [0xfa]),
    ),
    { minLength: 1, maxLength: 4 },
  )
  .map((messages) => [{ kind: 'packet', status: 0xf7, data: messages.flat() }]);

const step = (escapes: boolean): fc.Arbitrary<Step> =>
  fc.oneof(
    { weight: 30, arbitrary: message },
    { weight: 4, arbitrary: text },
    { weight: 2, arbitrary: meta(0x21, data7) },
    { weight: 2, arbitrary: meta(0x51, byte, byte, fc.integer({ min: 1, max: 255 })) },
    { weight: 2, arbitrary: meta(0x58, fc.integer({ min: 1, max: 255 }), fc.nat(7), byte, byte) },
    {
      weight: 1,
      arbitrary: meta(
        0x54,
        byte.map((hour) => hour & 0x7f),
        fc.nat(59),
        fc.nat(59),
        fc.nat(29),
        fc.nat(99),
      ),
    },
    { weight: 1, arbitrary: meta(0x59, fc.nat(7), fc.nat(1)) },
    { weight: 1, arbitrary: meta(0x20, channel) },
    { weight: 1, arbitrary: meta(0x00, byte, byte) },
    { weight: 2, arbitrary: sysex },
    { weight: escapes ? 2 : 0, arbitrary: escape },
  );

const delta = fc.oneof(
  { weight: 4, arbitrary: fc.nat(127) },
  { weight: 4, arbitrary: fc.nat(0x3fff) },
  { weight: 1, arbitrary: fc.nat(0x0fff_ffff) },
);

const track = (escapes: boolean): fc.Arbitrary<RawEvent[]> =>
  fc.array(fc.tuple(delta, step(escapes)), { maxLength: 40 }).map((steps) => {
    let tick = 0;
    const events = steps.flatMap(([after, untimed]) =>
      untimed.map((event, index): RawEvent => ({
        ...event,
        tick: (tick += index === 0 ? after : 0),
      })),
    );
    return [...events, { tick, kind: 'meta', type: 0x2f, data: [] }];
  });

/**
 * Cues that the standard allows, of every kind of event. Nothing in them makes a finding but F7
 * packets outside a message, which `escapes` lets in.
 */
export const anyCue = ({ escapes }: { readonly escapes: boolean }): fc.Arbitrary<RawCue> =>
  fc.record({
    format: fc.constantFrom(0, 1, 1, 2),
    division: fc.oneof(
      fc.integer({ min: 1, max: 0x7fff }),
      fc.constantFrom(0xe728, 0xe350, 0xe804, 0xe250),
    ),
    tracks: fc.array(track(escapes), { minLength: 1, maxLength: 4 }),
  });
