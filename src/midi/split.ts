import { parseCueName, withoutExtension, type CueName } from './cue-name.ts';
import type { Marker, Score } from './score.ts';
import type { Stretch } from './stretches.ts';

/** One of the cues that a file holds. */
export interface CueInFile {
  readonly name: CueName;
  readonly stretches: readonly Stretch[];
}

/** Why a file is one cue after all. */
export type NotSplit = 'no-markers' | 'several-timelines' | 'too-many';

/** More cues than any reel has (common practice: 60): these markers mark something else. */
const mostCues = 1_000;

/** As long as the name of a file may be on most disks, and less. */
const longestText = 120;

/** What a marker says as a part of a cue's id: no slash, no control character, no space too many. */
const safe = (text: string, number: number): string => {
  const plain = text.replace(/[\p{Cc}\p{Cf}\s]+/gu, ' ').replace(/[/\\]/g, '-');
  const tidy = [...plain.trim()].slice(0, longestText).join('').trim();
  return tidy === '' ? `marker ${String(number)}` : tidy;
};

interface Border {
  readonly tick: number;
  readonly name: CueName;
}

/** Of several markers on one tick the last: the others mark nothing that lasts. */
const bordersOf = (markers: readonly Marker[], path: string): readonly Border[] => {
  const folder = withoutExtension(path);
  const all = markers.map(({ tick, text }, i): Border => ({
    tick,
    name: parseCueName(`${folder}/${safe(text, i + 1)}`),
  }));
  const numbered = all.filter(({ name }) => name.number !== null);
  const chosen = numbered.length > 0 ? numbered : all;
  return chosen.filter(({ tick }, i) => chosen[i + 1]?.tick !== tick);
};

/**
 * Parts a file into cues at its markers (FF 06). Where some markers bear a cue number, only those part
 * it; else each one does. A number and a version in a marker are read as in the name of a file; without
 * a number the cue is called `PATH/TEXT`, the path less its extension. What comes before the first
 * marker belongs to the first cue, and markers of one id mark one cue.
 *
 * @param path of the file, with `/` between folders
 */
export const splitAtMarkers = (score: Score, path: string): readonly CueInFile[] | NotSplit => {
  const [timeline, ...others] = score.timelines;
  if (timeline === undefined || others.length > 0) return 'several-timelines';
  const markers = timeline.markers.filter(({ kind }) => kind === 'marker');
  if (markers.length === 0) return 'no-markers';
  const borders = bordersOf(markers, path);
  const cues = new Map<string, { readonly name: CueName; readonly stretches: Stretch[] }>();
  for (const [i, { tick, name }] of borders.entries()) {
    const stretch = { from: i === 0 ? 0 : tick, to: borders[i + 1]?.tick ?? null };
    const own = cues.get(name.id) ?? { name, stretches: [] };
    cues.set(name.id, own);
    const before = own.stretches.at(-1);
    // Two in a row of one cue are no border.
    if (before?.to === tick)
      own.stretches[own.stretches.length - 1] = { ...before, to: stretch.to };
    else own.stretches.push(stretch);
    if (cues.size > mostCues) return 'too-many';
  }
  return [...cues.values()];
};
