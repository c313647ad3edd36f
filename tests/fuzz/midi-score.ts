import { eventsOf, partsOf } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { isDamaged, type Score, type Timeline, type Track } from '../../src/midi/score.ts';
import { clock } from '../../src/midi/timeline.ts';
import { InputError } from '../../src/terms/errors.ts';

/** Codes that reading may end with (see `readMidi`). */
const refusals = ['midi-empty', 'midi-not-a-midi-file', 'midi-header-cut', 'midi-division-zero'];

/** Codes that mean damage: a track with one of them is never taken for whole, and the other way. */
const damages = ['track-truncated', 'track-data-byte', 'track-status', 'track-quantity'];

/** Reads; null when the file is refused. Throws on anything but a refusal or a score. */
export const readOrRefuse = (bytes: Uint8Array): Score | null => {
  try {
    return readMidi(bytes, 'any.mid');
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { code, severity } = error.finding;
    if (!refusals.includes(code) || severity !== 'error') throw error;
    return null;
  }
};

const whole = (value: number, lo: number, hi: number): boolean =>
  Number.isInteger(value) && value >= lo && value <= hi;

/** True when each item is fine beside the one before it. */
const each = <Item>(
  items: readonly Item[],
  fine: (item: Item, before: Item | undefined) => boolean,
): boolean => items.every((item, index) => fine(item, items[index - 1]));

/** Rules by name; the names of those that are broken. */
const broken = (rules: Readonly<Record<string, boolean>>): string[] =>
  Object.entries(rules).flatMap(([rule, holds]) => (holds ? [] : [rule]));

const eventsAreFine = ({ events }: Track): boolean => {
  const { length, tick, status, data1, data2 } = events;
  for (let index = 0; index < length; index += 1) {
    const byte = status[index]!;
    const fine =
      whole(tick[index]!, index === 0 ? 0 : tick[index - 1]!, Number.MAX_SAFE_INTEGER) &&
      whole(byte, 0x80, 0xef) &&
      whole(data1[index]!, 0, 127) &&
      whole(data2[index]!, 0, byte >> 5 === 6 ? 0 : 127);
    if (!fine) return false;
  }
  return true;
};

const trackFaults = (track: Track, score: Score, bytes: Uint8Array): string[] => {
  const { events, ports, sysex, damage, end } = track;
  return broken({
    'columns are of one length': [events.tick, events.status, events.data1, events.data2].every(
      (column) => column.length === events.length,
    ),
    'events are messages in order': eventsAreFine(track),
    'the end is last': end >= (events.tick[events.length - 1] ?? 0),
    'its timeline exists': score.timelines[track.timeline] !== undefined,
    'ports begin at event 0': ports[0]?.from === 0,
    'ports are ports, in order': each(
      ports,
      ({ from, port }, before) =>
        whole(port, 0, 127) &&
        whole(from, before === undefined ? 0 : before.from + 1, events.length),
    ),
    'SysEx stand in order, between their neighbours': each(
      sysex,
      ({ tick, before, port }, last) =>
        whole(before, last?.before ?? 0, events.length) &&
        whole(tick, events.tick[before - 1] ?? 0, events.tick[before] ?? end) &&
        whole(port, 0, 127),
    ),
    'SysEx hold data bytes': sysex.every(
      ({ data }) => data.length > 0 && data.every((byte) => byte < 0x80),
    ),
    'damage is where reading ended': damage === null || damage.tick === end,
    'damage is in the file': damage === null || whole(damage.byte, 14, bytes.length),
  });
};

const timelineFaults = ({ division, tempo, meter, markers }: Timeline): string[] => {
  const [ticks, frames] =
    division.kind === 'metrical'
      ? [division.ticksPerQuarter, 1]
      : [division.ticksPerFrame, division.framesPerSecond];
  return broken({
    'a tick has a length': whole(ticks, 1, 0x7fff) && whole(frames, 1, 128),
    'changes begin at 0 and ascend': [tempo, meter].every((changes) =>
      each<{ tick: number }>(changes, ({ tick }, before) =>
        before === undefined ? tick === 0 : tick > before.tick,
      ),
    ),
    'tempos are tempos': tempo.every((change) =>
      whole(change.microsecondsPerQuarter, 1, 0xff_ffff),
    ),
    'meters are meters': meter.every(
      ({ beats, unit }) => whole(beats, 1, 255) && whole(Math.log2(unit), 0, 7),
    ),
    'markers are in order': each(markers, ({ tick }, before) => tick >= (before?.tick ?? 0)),
  });
};

const findingFaults = (score: Score, bytes: Uint8Array): string[] => {
  const { findings, tracks, missingTracks } = score;
  const told = findings.flatMap(({ code, at }) => (damages.includes(code) ? [at?.track] : []));
  const damaged = tracks.flatMap(({ damage, index }) => (damage === null ? [] : [index]));
  const missing = findings.some(({ code }) => code === 'tracks-missing');
  return broken({
    'findings are about this file': findings.every(({ file }) => file === 'any.mid'),
    'findings do not stop': findings.every(({ severity }) => severity !== 'error'),
    'findings are in the file': findings.every(
      ({ at }) => at?.byte === undefined || whole(at.byte, 0, bytes.length),
    ),
    'findings with a tick have their bar and beat': findings.every(
      ({ at }) =>
        at?.tick === undefined ||
        (whole(at.bar!, 1, Number.MAX_SAFE_INTEGER) && at.beat! >= 1 && at.beat! < 256),
    ),
    'damage is never silence, and never invented': told.join() === damaged.join(),
    'missing tracks are told': missingTracks > 0 === missing,
    'damage is seen from outside': isDamaged(score) === (missing || damaged.length > 0),
  });
};

const partFaults = (score: Score, events: number): string[] => {
  const parts = partsOf(score);
  return broken({
    'every event is in a part': parts.reduce((sum, part) => sum + part.events, 0) === events,
    'parts know their events': parts.every(
      (part) => eventsOf(score, part).length === part.events && part.notes <= part.events,
    ),
  });
};

/** What does not hold, of all that holds for the score of any bytes at all. */
export const faultsOf = (score: Score, bytes: Uint8Array): readonly string[] => {
  const events = score.tracks.reduce((sum, track) => sum + track.events.length, 0);
  const end = Math.max(0, ...score.tracks.slice(0, 100).map((track) => track.end));
  return [
    ...score.tracks.flatMap((track) => trackFaults(track, score, bytes)),
    ...score.timelines.flatMap(timelineFaults),
    ...findingFaults(score, bytes),
    ...partFaults(score, events),
    ...broken({
      'tracks are numbered': each(
        score.tracks,
        ({ index }, last) => index === (last?.index ?? -1) + 1,
      ),
      'there is a timeline': score.timelines.length > 0,
      // A message takes at least one byte, a track at least the head of a chunk.
      'nothing is larger than the file': events + score.tracks.length * 4 <= bytes.length,
      'findings are bounded by the file': score.findings.length <= bytes.length / 3 + 10,
      'every tick has a place': score.timelines.every((timeline) => {
        const { bar, beat, seconds } = clock(timeline).placeAt(end);
        return whole(bar, 1, Number.MAX_SAFE_INTEGER) && beat >= 1 && Number.isFinite(seconds);
      }),
    }),
  ];
};
