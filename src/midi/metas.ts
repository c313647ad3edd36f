import type { FindingArgs, FindingCode, Place } from '../terms/finding.ts';
import { byteAt } from './bytes.ts';
import type { Notices } from './notices.ts';
import type { Marker, PortRun } from './score.ts';
import { decodeText } from './text.ts';
import { readTimecode } from './timecode.ts';
import type { TimelineDraft } from './timeline-draft.ts';

/** Bytes of the meta events that have a fixed length (SMF 1.0, "Meta-Events"; FF 21 as practised). */
const lengths = new Map([
  [0x00, 2],
  [0x20, 1],
  [0x21, 1],
  [0x2f, 0],
  [0x51, 3],
  [0x54, 5],
  [0x58, 4],
  [0x59, 2],
]);

const pad = (value: number): string => String(value).padStart(2, '0');

/** The meta events of one track: what they say of the track, and of the time it runs in. */
export class Metas {
  name: string | null = null;
  instrumentName: string | null = null;
  deviceName: string | null = null;

  private readonly bytes: Uint8Array;
  private readonly track: number;
  private readonly timelineIndex: number;
  private readonly timeline: TimelineDraft;
  private readonly notices: Notices;
  private readonly runs: { from: number; port: number }[] = [{ from: 0, port: 0 }];
  private told: Set<string> | null = null;

  constructor(
    bytes: Uint8Array,
    track: number,
    timelineIndex: number,
    timeline: TimelineDraft,
    notices: Notices,
  ) {
    this.bytes = bytes;
    this.track = track;
    this.timelineIndex = timelineIndex;
    this.timeline = timeline;
    this.notices = notices;
  }

  get ports(): readonly PortRun[] {
    return this.runs;
  }

  get port(): number {
    return this.runs.at(-1)?.port ?? 0;
  }

  /**
   * A meta event longer than the standard says is read as far as the standard goes; a shorter one
   * is skipped; both are reported.
   *
   * @param event index of the next channel message of the track
   */
  read(type: number, from: number, to: number, tick: number, event: number): void {
    const length = to - from;
    const expected = lengths.get(type);
    if (expected !== undefined && length !== expected) {
      this.once(`meta-length ${type}`, tick, from, (at) => {
        this.note('meta-length', { type, length, expected }, at);
      });
      if (length < expected) return;
    }
    const byte = (index: number): number => byteAt(this.bytes, from + index);
    switch (type) {
      case 0x03:
        this.name ??= this.text(from, to);
        break;
      case 0x04:
        this.instrumentName ??= this.text(from, to);
        break;
      case 0x09:
        this.deviceName ??= this.text(from, to);
        break;
      case 0x06:
        this.mark('marker', from, to, tick);
        break;
      case 0x07:
        this.mark('cue-point', from, to, tick);
        break;
      case 0x21:
        this.readPort(byte(0), tick, from, event);
        break;
      case 0x51:
        this.readTempo(byte(0) * 0x10000 + byte(1) * 0x100 + byte(2), tick, from);
        break;
      case 0x54:
        this.readOffset([byte(0), byte(1), byte(2), byte(3), byte(4)]);
        break;
      case 0x58:
        this.readMeter(byte(0), byte(1), tick, from);
        break;
      default:
        break;
    }
  }

  /** An empty name is none. */
  private text(from: number, to: number): string | null {
    return from === to ? null : decodeText(this.bytes, from, to);
  }

  private mark(kind: Marker['kind'], from: number, to: number, tick: number): void {
    this.timeline.markers.push({ tick, kind, text: decodeText(this.bytes, from, to) });
  }

  /** The first one of a timeline holds, sound or not. */
  private readOffset(at: readonly [number, number, number, number, number]): void {
    if (this.timeline.smpteOffset !== null) return;
    // The bits above the hour are the frame rate.
    this.timeline.smpteOffset = [at[0] & 0x1f, at[1], at[2], at[3]].map(pad).join(':');
    this.timeline.timecode = readTimecode(...at);
  }

  private readPort(port: number, tick: number, from: number, event: number): void {
    if (port > 127) {
      this.once('port-odd', tick, from, (at) => {
        this.note('port-odd', { port }, at);
      });
      return;
    }
    const run = this.runs.at(-1);
    if (run === undefined || run.port === port) return;
    if (run.from === event) run.port = port;
    else this.runs.push({ from: event, port });
  }

  private readTempo(microsecondsPerQuarter: number, tick: number, from: number): void {
    if (microsecondsPerQuarter === 0) {
      this.once('tempo-zero', tick, from, (at) => {
        this.note('tempo-zero', {}, at);
      });
    } else this.timeline.tempo.push({ tick, microsecondsPerQuarter });
  }

  /** @param power the unit as a power of two: 3 is an eighth note */
  private readMeter(beats: number, power: number, tick: number, from: number): void {
    if (beats === 0 || power > 7) {
      this.once('meter-odd', tick, from, (at) => {
        this.note('meter-odd', { beats, power }, at);
      });
    } else this.timeline.meter.push({ tick, beats, unit: 2 ** power });
  }

  private note<Code extends FindingCode>(code: Code, args: FindingArgs[Code], at: Place): void {
    this.notices.add('note', code, args, at, this.timelineIndex);
  }

  /** Findings of one key are told once a track, where the first one is. */
  private once(key: string, tick: number, byte: number, tell: (at: Place) => void): void {
    this.told ??= new Set();
    if (this.told.has(key)) return;
    this.told.add(key);
    tell({ track: this.track, tick, byte });
  }
}
