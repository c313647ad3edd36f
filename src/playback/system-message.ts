/**
 * System exclusive messages that change what a bank plays.
 *
 * Sources: MIDI 1.0 Detailed Specification, "Universal System Exclusive" (GM system messages: sub-ID
 * 09; master coarse tuning: device control, sub-IDs 04 04); General MIDI 2; the GS and XG reset
 * messages as FluidSynth 2.3 reads them.
 */
export type SystemMessage =
  | { readonly kind: 'gm-on' | 'gm-off' | 'gs-reset' | 'xg-on'; readonly device: number }
  | {
      readonly kind: 'rhythm-part';
      readonly device: number;
      readonly channel: number;
      readonly drums: boolean;
    }
  | { readonly kind: 'master-coarse-tuning'; readonly semitones: number };

const nonRealTime = 0x7e;
const realTime = 0x7f;
const gs = 0x41;
const xg = 0x43;
/** Both reset, and both leave XG on: address and value. */
const systemOn: readonly number[] = [0x00, 0x00, 0x7e, 0x00];
const allParameterReset: readonly number[] = [0x00, 0x00, 0x7f, 0x00];

/** Recognises a message from the bytes between F0 and F7; null for all others. */
export const systemMessage = (data: Uint8Array): SystemMessage | null => {
  const device = data[1] ?? 0;
  if (data[0] === nonRealTime && data[2] === 0x09 && data.length === 4) {
    if (data[3] === 0x01 || data[3] === 0x03) return { kind: 'gm-on', device };
    if (data[3] === 0x02) return { kind: 'gm-off', device };
  }
  if (data[0] === realTime && data[2] === 0x04 && data[3] === 0x04 && data.length === 6) {
    return { kind: 'master-coarse-tuning', semitones: data[5]! - 64 };
  }
  if (data[0] === gs && data[2] === 0x42 && data[3] === 0x12) return gsMessage(data, device);
  if (data[0] === xg && data[2] === 0x4c && data.length === 7) {
    const isReset = [systemOn, allParameterReset].some((address) => isAt(data, 3, address));
    if (isReset) return { kind: 'xg-on', device };
  }
  return null;
};

/** A GS data set message: three address bytes, one value, and a checksum that makes the sum 0 mod 128. */
const gsMessage = (data: Uint8Array, device: number): SystemMessage | null => {
  if (data.length !== 9) return null;
  if (data.subarray(4).reduce((sum, byte) => sum + byte, 0) % 128 !== 0) return null;
  const value = data[7]!;
  if (isAt(data, 4, [0x40, 0x00, 0x7f]) && (value === 0x00 || value === 0x7f)) {
    return { kind: 'gs-reset', device };
  }
  if (data[4] === 0x40 && (data[5]! & 0xf0) === 0x10 && data[6] === 0x15 && value <= 2) {
    return {
      kind: 'rhythm-part',
      device,
      channel: channelOfPart(data[5]! & 0x0f),
      drums: value > 0,
    };
  }
  return null;
};

/** GS numbers its parts with the drum part, channel 10, first. */
const channelOfPart = (part: number): number => (part === 0 ? 9 : part < 10 ? part - 1 : part);

const isAt = (data: Uint8Array, offset: number, bytes: readonly number[]): boolean =>
  bytes.every((byte, i) => data[offset + i] === byte);
