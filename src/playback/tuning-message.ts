/**
 * Messages of the MIDI Tuning Standard that tune keys.
 *
 * Source: MIDI Tuning Updated Specification (MIDI Manufacturers Association; it joins the tuning
 * messages of MIDI 1.0, the bank and dump extensions CA-020 and the scale/octave extensions CA-021 /
 * RP-020). Like master coarse tuning they count whatever device they are sent to: what they move is
 * in doubt anyway.
 */
export type TuningMessage =
  | {
      /** Keys of a stored tuning program; those not named keep their pitch. */
      readonly kind: 'keys';
      readonly bank: number;
      readonly program: number;
      readonly pitches: ReadonlyMap<number, number>;
    }
  | {
      /** Offsets of the twelve notes from C to B, in semitones, in force on these channels at once. */
      readonly kind: 'scale';
      readonly channels: readonly number[];
      readonly offsets: readonly number[];
    };

const nonRealTime = 0x7e;
const realTime = 0x7f;
const nameLength = 16;
/** How many bytes an offset of a scale has. */
const oneByte = 1;
const twoBytes = 2;

/**
 * Recognises a tuning message from the bytes between F0 and F7; null for all others, for messages
 * that are not exactly as long as their form says, and for dump requests.
 *
 * Messages that name no bank are for bank 0, as FluidSynth 2.3 has it. A single note change without
 * a bank is real-time in the standard; the other header is taken too, as FluidSynth takes it. The
 * checksum of a dump is not looked at: the standard allows that for sub-ID 01, whose sums differ by
 * manufacturer, and a receiver that does the same with the others reaches more keys.
 */
export const tuningMessage = (data: Uint8Array): TuningMessage | null => {
  const header = data[0];
  if ((header !== nonRealTime && header !== realTime) || data[2] !== 0x08) return null;
  if (data.some((byte) => byte > 0x7f)) return null;
  const body = data.subarray(4);
  switch (data[3]) {
    case 0x02:
      return noteChange(0, body);
    case 0x07:
      return noteChange(body[0], body.subarray(1));
    case 0x08:
      return channelScale(body, oneByte);
    case 0x09:
      return channelScale(body, twoBytes);
  }
  // Dumps are setup messages and have no real-time form.
  if (header === realTime) return null;
  switch (data[3]) {
    case 0x01:
      return keyDump(0, body);
    case 0x04:
      return keyDump(body[0], body.subarray(1));
    case 0x05:
      return scaleDump(body, oneByte);
    case 0x06:
      return scaleDump(body, twoBytes);
    default:
      return null;
  }
};

/** `tt ll [kk xx yy zz]` x ll. */
const noteChange = (bank: number | undefined, body: Uint8Array): TuningMessage | null => {
  const [program, count] = body;
  if (bank === undefined || program === undefined || count === undefined || count === 0) {
    return null;
  }
  if (body.length !== 2 + 4 * count) return null;
  const pitches = new Map<number, number>();
  for (let at = 2; at < body.length; at += 4) {
    const pitch = pitchAt(body, at + 1);
    if (pitch !== null) pitches.set(body[at]!, pitch);
  }
  return { kind: 'keys', bank, program, pitches };
};

/** `tt name [xx yy zz]` x 128 `checksum`. */
const keyDump = (bank: number | undefined, body: Uint8Array): TuningMessage | null => {
  const program = body[0];
  const from = 1 + nameLength;
  if (bank === undefined || program === undefined || body.length !== from + 3 * 128 + 1)
    return null;
  const pitches = new Map<number, number>();
  for (let key = 0; key < 128; key++) {
    const pitch = pitchAt(body, from + 3 * key);
    if (pitch !== null) pitches.set(key, pitch);
  }
  return { kind: 'keys', bank, program, pitches };
};

/** `bb tt name [offset]` x 12 `checksum`: a program whose every octave is tuned alike. */
const scaleDump = (body: Uint8Array, size: number): TuningMessage | null => {
  const [bank, program] = body;
  const from = 2 + nameLength;
  if (bank === undefined || program === undefined) return null;
  if (body.length !== from + 12 * size + 1) return null;
  const offsets = offsetsAt(body, from, size);
  const pitches = new Map<number, number>();
  for (let key = 0; key < 128; key++) pitches.set(key, key + offsets[key % 12]!);
  return { kind: 'keys', bank, program, pitches };
};

/** `ff gg hh [offset]` x 12: one bit per channel, from the last bit of hh on. */
const channelScale = (body: Uint8Array, size: number): TuningMessage | null => {
  const [high, middle, low] = body;
  if (high === undefined || middle === undefined || low === undefined) return null;
  if (body.length !== 3 + 12 * size) return null;
  // The bits of ff beyond channel 16 are reserved.
  const mask = (high << 14) | (middle << 7) | low;
  const channels = Array.from({ length: 16 }, (_, channel) => channel);
  return {
    kind: 'scale',
    channels: channels.filter((channel) => ((mask >> channel) & 1) === 1),
    offsets: offsetsAt(body, 3, size),
  };
};

/**
 * Frequency data `xx yy zz` as a pitch in semitones: key xx, and 14 bits of a semitone above it. Null
 * for 7F 7F 7F, "no change".
 */
const pitchAt = (body: Uint8Array, at: number): number | null => {
  const semitone = body[at]!;
  const fraction = body[at + 1]! * 128 + body[at + 2]!;
  if (semitone === 0x7f && fraction === 0x3fff) return null;
  return semitone + fraction / 0x4000;
};

/** Twelve offsets in semitones: in one byte, cents from -64; in two, 1/8192 semitone from -8192. */
const offsetsAt = (body: Uint8Array, from: number, size: number): readonly number[] =>
  Array.from({ length: 12 }, (_, note) => {
    const at = from + size * note;
    if (size === oneByte) return (body[at]! - 64) / 100;
    return (body[at]! * 128 + body[at + 1]! - 8192) / 8192;
  });
