import { byteAt } from './bytes.ts';
import type { Columns } from './columns.ts';
import { Metas } from './metas.ts';
import type { Notices } from './notices.ts';
import { Packets } from './packets.ts';
import { scanTrack, type TrackScan, type TrackSink } from './scan-track.ts';
import type { Damage, Track } from './score.ts';
import type { TimelineDraft } from './timeline-draft.ts';

/** A track whose events still lie in the columns of the whole file, from `from` to `to`. */
export interface TrackDraft {
  readonly track: Omit<Track, 'events'>;
  readonly from: number;
  readonly to: number;
}

/** Where a track belongs and what it is read into. */
export interface TrackPlace {
  readonly index: number;
  readonly timeline: number;
  readonly draft: TimelineDraft;
  readonly columns: Columns;
  readonly notices: Notices;
}

/** A track chunk: its data, and whether more may have stood behind it. */
export interface TrackChunk {
  readonly start: number;
  readonly end: number;
  /** The file ends before the chunk, or what follows is no chunk: without End of Track, damage. */
  readonly doubtful: boolean;
}

/** Tells why the track can't be trusted to be whole, if so. */
const damageOf = (
  scan: TrackScan,
  bytes: Uint8Array,
  chunk: TrackChunk,
  place: TrackPlace,
): Damage | null => {
  const at = { track: place.index, tick: scan.tick, byte: scan.byte };
  const { notices, timeline } = place;
  const damage = { tick: scan.tick, byte: scan.byte };
  const wrong = scan.byte < chunk.end ? byteAt(bytes, scan.byte) : 0;
  switch (scan.stop) {
    case 'end-of-track':
      return null;
    case 'end':
      if (!chunk.doubtful) return null;
      notices.add('warning', 'track-truncated', {}, at, timeline);
      return damage;
    case 'track-truncated':
    case 'track-quantity':
      notices.add('warning', scan.stop, {}, at, timeline);
      return damage;
    case 'track-data-byte':
      notices.add('warning', scan.stop, { value: wrong }, at, timeline);
      return damage;
    case 'track-status':
      notices.add('warning', scan.stop, { status: wrong }, at, timeline);
      return damage;
  }
};

/** Reads one track chunk, with a finding for each thing that is odd. */
export const readTrack = (bytes: Uint8Array, chunk: TrackChunk, place: TrackPlace): TrackDraft => {
  const { index, timeline, draft, columns, notices } = place;
  const from = columns.length;
  const metas = new Metas(bytes, index, timeline, draft, notices);
  const packets = new Packets(columns);
  const carried = { times: 0, tick: 0, byte: 0 };
  const sink: TrackSink = {
    meta: (type, start, end, tick) => {
      metas.read(type, start, end, tick, columns.length - from);
    },
    packet: (status, start, end, tick) => {
      packets.read(status, bytes, start, end, tick, metas.port);
    },
    carried: (byte, tick) => {
      if (carried.times === 0) Object.assign(carried, { tick, byte });
      carried.times += 1;
    },
  };

  const scan = scanTrack(bytes, chunk.start, chunk.end, columns, sink);
  packets.close();
  if (carried.times > 0) {
    const { times, tick, byte } = carried;
    const at = { track: index, tick, byte };
    notices.add('note', 'running-status-after-meta', { times }, at, timeline);
  }
  if (packets.escapes > 0) {
    const at = { track: index, ...packets.firstEscape };
    notices.add('note', 'sysex-escape', { times: packets.escapes }, at, timeline);
  }
  const damage = damageOf(scan, bytes, chunk, place);
  const at = { track: index, tick: scan.tick, byte: scan.byte };
  if (scan.stop === 'end-of-track' && scan.byte < chunk.end) {
    const left = chunk.end - scan.byte;
    notices.add('warning', 'track-after-end', { bytes: left }, at, timeline);
  }
  if (scan.stop === 'end' && damage === null) notices.add('note', 'track-no-end', {}, at, timeline);

  return {
    track: {
      index,
      name: metas.name,
      instrumentName: metas.instrumentName,
      deviceName: metas.deviceName,
      timeline,
      sysex: packets.sysex,
      ports: metas.ports,
      end: scan.tick,
      damage,
    },
    from,
    to: columns.length,
  };
};
