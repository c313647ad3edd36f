import type { ZonedKeyMapRow } from '../keep/key-map/make-key-map.ts';
import { numbersIn, toRanges } from '../terms/range.ts';
import type { Playable, PlayableStretch } from './overview-playable.ts';
import { keyCount, rowAt, silentRows, type PlayableContext, type RowAt } from './playable-rows.ts';
import { roomAt, type Room } from './room.ts';

/**
 * What can still be written for an articulation, and where the ends of its notes lack something. Where
 * copies have zones of their own, for one of them.
 */
export const playableOf = (rows: readonly ZonedKeyMapRow[], context: PlayableContext): Playable => {
  const of = (
    all: readonly ZonedKeyMapRow[],
    what: ZonedKeyMapRow['event'],
  ): readonly ZonedKeyMapRow[] => all.filter(({ event }) => event === what);
  const everywhere = context.everywhere ?? [];
  const [own, others] = [of(rows, 'note'), of(everywhere, 'note')];
  const ends = [...of(rows, 'release'), ...of(everywhere, 'release')].map((row) =>
    rowAt(row, context),
  );
  const notes = own.map((row) => rowAt(row, context));
  const beside = [
    ...others.map((row) => rowAt(row, context)),
    ...silentRows([...own, ...others], context),
  ];
  const keysWhere = (of: (row: RowAt) => Uint8Array): readonly number[] =>
    keys.filter((key) => notes.some((row) => of(row)[key] === 1));
  const all = keysWhere(({ there }) => there);
  if (all.length === 0) return { state: stateWithoutNotes(rows), all: [], stretches: [] };
  const stretches = stretchesOf(
    keysWhere(({ stays }) => stays),
    notes,
    beside,
    ends,
  );
  const sounding = stretches.flatMap((stretch) => stretch.keys.flatMap(numbersIn));
  const isWhole =
    keysWhere(({ dropped }) => dropped).length === 0 &&
    !sounding.some((key) => beside.some(({ dropped }) => dropped[key] === 1)) &&
    !stretches.some(({ releasesGone }) => releasesGone);
  return {
    state: sounding.length === 0 ? 'gone' : isWhole ? 'whole' : 'part',
    all: toRanges(all),
    stretches,
  };
};

const keys: readonly number[] = Array.from({ length: keyCount }, (_, key) => key);

/** Releases, or what a controller starts, are all that there is: no note can be written for it. */
const stateWithoutNotes = (rows: readonly ZonedKeyMapRow[]): Playable['state'] => {
  const members = rows.flatMap((row) => row.members);
  const kept = members.filter((member) => member.kept !== null).length;
  if (kept === members.length) return 'whole';
  return kept === 0 ? 'gone' : 'part';
};

/** Keys with the same room, told once. */
const stretchesOf = (
  sounding: readonly number[],
  own: readonly RowAt[],
  beside: readonly RowAt[],
  ends: readonly RowAt[],
): readonly PlayableStretch[] => {
  const rows = [...own, ...beside];
  const known = new Map<string, Room | null>();
  const stretches = new Map<string, { readonly keys: number[]; readonly room: Room }>();
  for (const key of sounding) {
    // Of what starts beside it only that counts which is missed.
    const here = rows.flatMap((row, r) =>
      (r < own.length ? row.there : row.dropped)[key] === 1 ? [r] : [],
    );
    const gone = ends.flatMap((row, r) => (row.dropped[key] === 1 ? [r] : []));
    const same = [
      here.map((r) => (rows[r]!.dropped[key] === 1 ? `-${String(r)}` : r)).join(),
      gone.join(),
    ].join(';');
    let room = known.get(same);
    if (room === undefined) {
      room = roomAt(
        key,
        here.filter((r) => r < own.length).map((r) => rows[r]!),
        here.filter((r) => r >= own.length).map((r) => rows[r]!),
        gone.map((r) => ends[r]!),
      );
      known.set(same, room);
    }
    if (room === null) continue;
    const text = JSON.stringify(room);
    const stretch = stretches.get(text);
    if (stretch === undefined) stretches.set(text, { keys: [key], room });
    else stretch.keys.push(key);
  }
  return [...stretches.values()].map((one) => ({ keys: toRanges(one.keys), ...one.room }));
};
