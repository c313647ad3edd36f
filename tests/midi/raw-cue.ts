/**
 * A cue as the bare events of its file, the common ground of every reader that ours is compared
 * with, and what must be read from it, said as simply as can be.
 */
export type RawEvent =
  | { readonly tick: number; readonly kind: 'message'; readonly bytes: readonly number[] }
  | {
      readonly tick: number;
      readonly kind: 'meta';
      readonly type: number;
      readonly data: readonly number[];
    }
  /** `status` is F0 or F7. */
  | {
      readonly tick: number;
      readonly kind: 'packet';
      readonly status: number;
      readonly data: readonly number[];
    };

export interface RawCue {
  readonly format: number;
  /** The two bytes of the division as one number. */
  readonly division: number;
  readonly tracks: readonly (readonly RawEvent[])[];
}

/** What is compared. Ticks come first in every line; bytes are hex. */
export interface CueFacts {
  readonly format: number;
  readonly division: number;
  readonly tracks: readonly {
    readonly names: readonly (string | null)[];
    /** `first event: port` */
    readonly ports: readonly string[];
    readonly messages: readonly string[];
    readonly sysex: readonly string[];
    readonly end: number;
  }[];
  /** Timeline by timeline. */
  readonly times: readonly {
    readonly tempo: readonly string[];
    readonly meter: readonly string[];
    readonly markers: readonly string[];
    readonly smpteOffset: string | null;
  }[];
}

export const hexOf = (bytes: Iterable<number>): string =>
  [...bytes].map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');

const textOf = (data: readonly number[]): string => {
  const bytes = Uint8Array.from(data);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return Buffer.from(bytes).toString('latin1');
  }
};

type Meta = Extract<RawEvent, { kind: 'meta' }>;

const metas = (track: readonly RawEvent[], ...types: readonly number[]): Meta[] =>
  track.filter((event): event is Meta => event.kind === 'meta' && types.includes(event.type));

const nameOf = (track: readonly RawEvent[], type: number): string | null => {
  const named = metas(track, type).find(({ data }) => data.length > 0);
  return named === undefined ? null : textOf(named.data);
};

/** Messages, those inside packets of well-made files among them. */
const messagesOf = (event: RawEvent): readonly (readonly number[])[] => {
  if (event.kind === 'message') return [event.bytes];
  if (event.kind !== 'packet' || event.status !== 0xf7 || (event.data[0] ?? 0) < 0x80) return [];
  const starts = event.data.flatMap((byte, index) => (byte >= 0x80 ? [index] : []));
  return starts
    .map((start, index) => event.data.slice(start, starts[index + 1]))
    .filter(([status = 0]) => status < 0xf0);
};

const sysexOf = (track: readonly RawEvent[]): string[] => {
  const lines: string[] = [];
  let open: number[] | null = null;
  for (const event of track) {
    if (event.kind !== 'packet') continue;
    if (event.status === 0xf0) open = [];
    if (open === null) continue;
    open.push(...event.data);
    if (event.data.at(-1) === 0xf7) {
      if (open.length > 1) lines.push(`${event.tick}: ${hexOf(open.slice(0, -1))}`);
      open = null;
    }
  }
  return lines;
};

const portsOf = (track: readonly RawEvent[]): string[] => {
  const runs = new Map<number, number>([[0, 0]]);
  let messages = 0;
  for (const event of track) {
    messages += messagesOf(event).length;
    const port = event.kind === 'meta' && event.type === 0x21 ? event.data[0] : undefined;
    if (port !== undefined && port !== [...runs.values()].at(-1)) runs.set(messages, port);
  }
  return [...runs].map(([from, port]) => `${from}: ${port}`);
};

/** Changes by tick, the last one of a tick, with the standard's default in front if need be. */
const changes = (tracks: readonly (readonly RawEvent[])[], type: number, initial: number[]) => {
  const byTick = new Map<number, readonly number[]>([[0, initial]]);
  for (const { tick, data } of tracks.flatMap((track) => metas(track, type)))
    byTick.set(tick, data);
  return [...byTick].sort(([a], [b]) => a - b).map(([tick, data]) => `${tick}: ${hexOf(data)}`);
};

const timeOf = (tracks: readonly (readonly RawEvent[])[]): CueFacts['times'][number] => {
  const offset = tracks.flatMap((track) => metas(track, 0x54))[0]?.data;
  return {
    tempo: changes(tracks, 0x51, [0x07, 0xa1, 0x20]),
    // Clicks and 32nd notes are not kept.
    meter: changes(tracks, 0x58, [4, 2]).map((line) => line.split(' ').slice(0, 3).join(' ')),
    markers: tracks
      .flatMap((track) => metas(track, 0x06, 0x07))
      .sort((a, b) => a.tick - b.tick)
      .map(({ tick, type, data }) => `${tick}: ${type} ${textOf(data)}`),
    smpteOffset: offset === undefined ? null : hexOf([offset[0]! & 0x1f, ...offset.slice(1, 4)]),
  };
};

export const factsOf = ({ format, division, tracks }: RawCue): CueFacts => ({
  format,
  division,
  tracks: tracks.map((track) => ({
    names: [0x03, 0x04, 0x09].map((type) => nameOf(track, type)),
    ports: portsOf(track),
    messages: track.flatMap((event) =>
      messagesOf(event).map((bytes) => `${event.tick}: ${hexOf(bytes)}`),
    ),
    sysex: sysexOf(track),
    end: track.at(-1)?.tick ?? 0,
  })),
  times: format === 2 ? tracks.map((track) => timeOf([track])) : [timeOf(tracks)],
});
