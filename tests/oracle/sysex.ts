/**
 * The system exclusive messages that change which preset a channel plays: how to write them and how
 * to recognise them. All data is without the F0 in front and the F7 behind.
 *
 * Sources: General MIDI System Level 1 and 2 (GM on, GM off, GM2 on), MIDI 1.0 universal real time
 * messages (master coarse tuning); the bytes of GS reset, GS rhythm part, XG system on and XG all
 * parameter reset are common practice.
 */

export type SysexMeaning =
  | { readonly what: 'gm-on' | 'gm-off' | 'gs-reset' | 'xg-on'; readonly device: number }
  | {
      readonly what: 'rhythm-part';
      readonly device: number;
      readonly channel: number;
      readonly drum: boolean;
    }
  | { readonly what: 'master-coarse-tuning'; readonly semitones: number };

/** What a message says; null if it is none of these, or not exactly of their form. */
export function readSysex(message: ArrayLike<number>): SysexMeaning | null {
  const data = Array.from(message);
  const device = data[1] ?? 0;
  const rest = data.slice(2).map((byte) => byte.toString(16).padStart(2, '0'));
  const form = rest.join(' ');

  if (data[0] === 0x7e) {
    if (form === '09 01' || form === '09 03') return { what: 'gm-on', device };
    if (form === '09 02') return { what: 'gm-off', device };
  }
  // The reset of all parameters means what system on means.
  if (data[0] === 0x43 && (form === '4c 00 00 7e 00' || form === '4c 00 00 7f 00')) {
    return { what: 'xg-on', device };
  }
  if (data[0] === 0x7f && form.startsWith('04 04 ') && data.length === 6) {
    return { what: 'master-coarse-tuning', semitones: (data[5] ?? 64) - 64 };
  }
  // Three address bytes, one data byte, and the checksum that brings their sum to 0 modulo 128.
  if (data[0] === 0x41 && form.startsWith('42 12 40 ') && data.length === 9) {
    const [, middle = 0, low = 0, value = 0] = data.slice(4);
    if (sum(data.slice(4)) % 128 !== 0) return null;
    if (middle === 0x00 && low === 0x7f && (value === 0x00 || value === 0x7f)) {
      return { what: 'gs-reset', device };
    }
    if (middle >= 0x10 && middle <= 0x1f && low === 0x15 && value <= 2) {
      const channel = channelOfPart(middle - 0x10);
      return { what: 'rhythm-part', device, channel, drum: value !== 0 };
    }
  }
  return null;
}

/** Part 0 is the tenth channel; parts 1 to 9 come before it, 10 to 15 after it. */
function channelOfPart(part: number): number {
  if (part === 0) return 9;
  return part < 10 ? part - 1 : part;
}

function sum(bytes: readonly number[]): number {
  return bytes.reduce((total, byte) => total + byte, 0);
}

export const gmOn = (device: number) => [0x7e, device, 0x09, 0x01];
export const gmOff = (device: number) => [0x7e, device, 0x09, 0x02];
export const gm2On = (device: number) => [0x7e, device, 0x09, 0x03];
export const xgOn = (device: number) => [0x43, device, 0x4c, 0x00, 0x00, 0x7e, 0x00];
export const xgReset = (device: number) => [0x43, device, 0x4c, 0x00, 0x00, 0x7f, 0x00];

/** `value` is 0x00, or 0x7F to leave the mode, which also resets. */
export const gsReset = (device: number, value = 0x00) =>
  gsMessage(device, [0x40, 0x00, 0x7f, value]);

/** `value` 0 makes the part melodic, 1 or 2 makes it a drum part. */
export const rhythmPart = (device: number, part: number, value: number) =>
  gsMessage(device, [0x40, 0x10 + part, 0x15, value]);

export const masterCoarseTuning = (device: number, semitones: number) => [
  ...[0x7f, device, 0x04, 0x04, 0x00],
  64 + semitones,
];

function gsMessage(device: number, body: readonly number[]): number[] {
  return [0x41, device, 0x42, 0x12, ...body, (128 - (sum(body) % 128)) % 128];
}
