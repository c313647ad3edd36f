import type { CueNotes, PartNotes } from '../playback/note-usage.ts';
import { prepareName } from '../template/patterns/match-pattern.ts';
import { see, type PartOfCue } from './see.ts';
import type { Seen } from './draft.ts';
import { readTrackName, type TrackName } from './track-name.ts';

/** What a rule can tell apart: tracks of one name over all cues, or one channel of them. */
export interface DraftTrack {
  /** As it is written first, every run of white space as one space; empty: no name. */
  readonly name: string;
  /** As the rules of a template compare it. */
  readonly folded: string;
  /** From 1; null: all ports. */
  readonly port: number | null;
  /** From 1; null: all channels. */
  readonly channel: number | null;
  readonly said: TrackName;
  readonly seen: Seen;
  /** At least one. */
  readonly parts: readonly PartOfCue[];
}

/** What a draft needs to know of a cue, or of one of its files. */
export type PlayedCue = Pick<CueNotes, 'id' | 'state' | 'parts'>;

/** Which parts the draft is for. */
export type Wanted = (part: PartNotes) => boolean;

const foldedName = ({ trackName }: PartNotes): string => prepareName(trackName ?? '').folded;

const playing = ({ parts }: PlayedCue): readonly PartNotes[] =>
  parts.filter(({ notes }) => notes > 0);

/**
 * Names whose channels are instruments of their own: tracks without a name, and the only track of a
 * file when it plays on several channels, as in format 0.
 */
const namesByChannel = (cues: readonly PlayedCue[]): ReadonlySet<string> => {
  const names = new Set(['']);
  for (const cue of cues) {
    const files = new Map<number, PartNotes[]>();
    for (const part of playing(cue)) {
      const parts = files.get(part.file);
      if (parts === undefined) files.set(part.file, [part]);
      else parts.push(part);
    }
    for (const [first, ...rest] of files.values()) {
      if (first === undefined || rest.length === 0) continue;
      if (rest.every(({ track }) => track === first.track)) names.add(foldedName(first));
    }
  }
  return names;
};

/** Names with more than one port. */
const namesOnPorts = (cues: readonly PlayedCue[]): ReadonlySet<string> => {
  const ports = new Map<string, number>();
  const several = new Set<string>();
  for (const part of cues.flatMap(playing)) {
    const name = foldedName(part);
    if ((ports.get(name) ?? part.port) !== part.port) several.add(name);
    ports.set(name, part.port);
  }
  return several;
};

interface Found {
  readonly port: number | null;
  readonly channel: number | null;
  readonly parts: PartOfCue[];
}

/** Switches may be program changes or controllers, and no notes. */
const holdsSwitches = ({ trackName }: PartNotes): boolean =>
  readTrackName(trackName ?? '').switchesOf !== null;

/**
 * The tracks that play notes, or by their names hold switches, in order of first appearance. Names
 * that a template's rules can't tell apart are one track.
 */
export const collectTracks = (
  cues: readonly PlayedCue[],
  isWanted: Wanted = () => true,
): readonly DraftTrack[] => {
  const [byChannel, onPorts] = [namesByChannel(cues), namesOnPorts(cues)];
  const tracks = new Map<string, Found>();
  for (const cue of cues) {
    for (const part of cue.parts.filter(isWanted)) {
      if (part.notes === 0 && !holdsSwitches(part)) continue;
      const name = foldedName(part);
      const isSplit = byChannel.has(name);
      const port = isSplit && onPorts.has(name) ? part.port : null;
      const channel = isSplit ? part.channel : null;
      const id = JSON.stringify([name, port, channel]);
      const own = tracks.get(id) ?? { port, channel, parts: [] };
      own.parts.push({ cue: cue.id, part });
      tracks.set(id, own);
    }
  }
  return [...tracks.values()].map(({ port, channel, parts }) => {
    const written = parts[0]?.part.trackName ?? '';
    const folded = prepareName(written).folded;
    const name = folded === '' ? '' : written.replace(/\s+/gu, ' ').trim();
    return { name, folded, port, channel, said: readTrackName(name), seen: see(parts), parts };
  });
};
