import type { CueNotes, NoteUsage, PartNotes } from '../playback/note-usage.ts';
import { toRanges, type Range } from '../terms/range.ts';

/** What tracks of one name, port and channel play over the whole reel. */
export interface ReelPart extends Omit<PartNotes, 'file' | 'track'> {
  /** Cues in which they play at least one note. */
  readonly cues: number;
}

const keysOf = (parts: readonly PartNotes[]): readonly Range[] => {
  const played = new Set<number>();
  for (const { keys } of parts) {
    for (const [lo, hi] of keys) for (let key = lo; key <= hi; key += 1) played.add(key);
  }
  return toRanges(played);
};

const joined = (a: Range, b: Range): Range => [Math.min(a[0], b[0]), Math.max(a[1], b[1])];

const velocitiesOf = (parts: readonly PartNotes[]): Range | null =>
  parts.reduce<Range | null>(
    (all, { velocities }) =>
      all === null || velocities === null ? (all ?? velocities) : joined(all, velocities),
    null,
  );

const controllersOf = (parts: readonly PartNotes[]): PartNotes['controllers'] => {
  const all = new Map<number, PartNotes['controllers'][number]>();
  for (const { number, events, range } of parts.flatMap(({ controllers }) => controllers)) {
    const known = all.get(number);
    all.set(number, {
      number,
      events: events + (known?.events ?? 0),
      range: known === undefined ? range : joined(range, known.range),
    });
  }
  return [...all.values()].sort((a, b) => a.number - b.number);
};

const programsOf = (parts: readonly PartNotes[]): PartNotes['programs'] => {
  const all = parts.flatMap(({ programs }) => programs);
  const id = ({ bankMsb, bankLsb, program }: PartNotes['programs'][number]): string =>
    `${String(bankMsb)} ${String(bankLsb)} ${String(program)}`;
  return [...new Map(all.map((each) => [id(each), each])).values()];
};

const switchesOf = (parts: readonly PartNotes[]): readonly number[] =>
  [...new Set(parts.flatMap(({ likelySwitches }) => likelySwitches))].sort((a, b) => a - b);

interface Group {
  readonly first: PartNotes;
  readonly parts: PartNotes[];
  readonly cues: Set<CueNotes>;
}

/**
 * The parts of all cues put together by track name, port and channel, in order of first appearance.
 * Tracks without a name are one part for each port and channel.
 */
export const reelParts = (cues: readonly CueNotes[]): readonly ReelPart[] => {
  const groups = new Map<string, Group>();
  for (const cue of cues) {
    for (const part of cue.parts) {
      const id = JSON.stringify([part.trackName, part.port, part.channel]);
      const group = groups.get(id) ?? { first: part, parts: [], cues: new Set() };
      group.parts.push(part);
      if (part.notes > 0) group.cues.add(cue);
      groups.set(id, group);
    }
  }
  return [...groups.values()].map(({ first, parts, cues: playing }) => ({
    cues: playing.size,
    trackName: first.trackName,
    port: first.port,
    channel: first.channel,
    notes: parts.reduce((sum, { notes }) => sum + notes, 0),
    keys: keysOf(parts),
    velocities: velocitiesOf(parts),
    controllers: controllersOf(parts),
    programs: programsOf(parts),
    likelySwitches: switchesOf(parts),
  }));
};

export interface ReelTotals {
  readonly seconds: number;
  readonly bars: number;
  readonly notes: number;
  readonly parts: number;
}

/** Sums over the reel. */
export const reelTotals = ({ cues }: NoteUsage): ReelTotals =>
  cues.reduce(
    (sum, { seconds, bars, notes, parts }) => ({
      seconds: sum.seconds + seconds,
      bars: sum.bars + bars,
      notes: sum.notes + notes,
      parts: sum.parts + parts.length,
    }),
    { seconds: 0, bars: 0, notes: 0, parts: 0 },
  );
