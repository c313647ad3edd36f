import { execFileSync } from 'node:child_process';
import type { RawCue, RawEvent } from './raw-cue.ts';

const texts = new Map([
  ['Text_t', 0x01],
  ['Copyright_t', 0x02],
  ['Title_t', 0x03],
  ['Instrument_name_t', 0x04],
  ['Lyric_t', 0x05],
  ['Marker_t', 0x06],
  ['Cue_point_t', 0x07],
]);

/** Channel messages (midicsv(5)); the channel is the first number. */
const messages = new Map([
  ['Note_off_c', 0x80],
  ['Note_on_c', 0x90],
  ['Poly_aftertouch_c', 0xa0],
  ['Control_c', 0xb0],
  ['Program_c', 0xc0],
  ['Channel_aftertouch_c', 0xd0],
]);

/** `"a""b\012"`: quotes are doubled, control characters octal (midicsv(5)). */
const unquote = (quoted: string): number[] => {
  const text = quoted
    .slice(1, -1)
    .replaceAll('""', '"')
    .replace(/\\(\d{3}|\\)/g, (_, code: string) =>
      code === '\\' ? code : String.fromCharCode(Number.parseInt(code, 8)),
    );
  return Array.from(text, (letter) => letter.charCodeAt(0));
};

/** A record less its track: tick, name and the rest. */
const toRaw = (tick: number, name: string, rest: string): RawEvent => {
  const meta = (type: number, data: readonly number[]): RawEvent => ({
    tick,
    kind: 'meta',
    type,
    data,
  });
  const text = texts.get(name);
  if (text !== undefined) return meta(text, unquote(rest));
  const numbers = rest.split(', ').map(Number);
  const [first = 0, second = 0] = numbers;
  const status = messages.get(name);
  if (status !== undefined) {
    return { tick, kind: 'message', bytes: [status + first, ...numbers.slice(1)] };
  }
  switch (name) {
    case 'Pitch_bend_c':
      return { tick, kind: 'message', bytes: [0xe0 + first, second & 0x7f, second >> 7] };
    case 'System_exclusive':
      return { tick, kind: 'packet', status: 0xf0, data: numbers.slice(1) };
    case 'System_exclusive_packet':
      return { tick, kind: 'packet', status: 0xf7, data: numbers.slice(1) };
    case 'Tempo':
      return meta(0x51, [first >> 16, (first >> 8) & 0xff, first & 0xff]);
    case 'Time_signature':
      return meta(0x58, numbers);
    case 'SMPTE_offset':
      return meta(0x54, numbers);
    case 'MIDI_port':
      return meta(0x21, numbers);
    case 'Unknown_meta_event':
      return meta(first, numbers.slice(2));
    case 'End_track':
      return meta(0x2f, []);
    case 'Sequence_number':
    case 'Channel_prefix':
    case 'Key_signature':
    case 'Sequencer_specific':
      return meta(0x7f, []);
    default:
      throw new Error(`a record of midicsv that this test does not know: ${name}`);
  }
};

/** Reads with the command `midicsv` (Debian package midicsv), which takes the file on its input. */
export const readWithMidicsv = (bytes: Uint8Array): RawCue => {
  const csv = execFileSync('midicsv', { input: bytes, maxBuffer: 1 << 28 }).toString('latin1');
  let head: readonly number[] = [];
  const tracks: RawEvent[][] = [];
  for (const record of csv.split('\n')) {
    const [, track, tick, name, rest = ''] = /^(\d+), (\d+), (\w+)(?:, (.*))?$/s.exec(record) ?? [];
    if (name === 'Header') head = rest.split(', ').map(Number);
    else if (name === 'Start_track') tracks.push([]);
    else if (track !== undefined && track !== '0') {
      tracks.at(-1)?.push(toRaw(Number(tick), name ?? '', rest));
    }
  }
  const [format = 0, , division = 0] = head;
  return { format, division: division & 0xffff, tracks };
};
