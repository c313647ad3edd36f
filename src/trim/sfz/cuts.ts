import { isBlank, isLineEnd } from '../../instruments/sfz/text/characters.ts';
import type { Header, Place, SfzDocument } from '../../instruments/sfz/text/document.ts';
import { tokenAt } from './between.ts';
import type { Fates } from './fates.ts';

/** A stretch that goes: offsets into the text of a file. */
export interface Cut {
  readonly start: number;
  readonly end: number;
  /** A `#define` without a value stands in front, which must not come by one. */
  readonly behindOpenDefine: boolean;
}

/** The opcode whose data runs on over comments to the next header or directive. */
export const dataOpcode = 'base64data';

/**
 * What goes, by inclusion and ascending: from a header to the end of its last opcode, with the comments
 * in between and behind on the line, but not with directives. Where the opcodes of a header go on in
 * another file they go there; each file is seen by itself.
 */
export const cutsOf = (
  { files, inclusions, headers }: SfzDocument,
  { ofHeader }: Fates,
): ReadonlyMap<number, readonly Cut[]> => {
  const cuts = new Map<number, Cutting>();
  const keptData = dataEnds(headers, ofHeader);
  headers.forEach((header, i) => {
    if (ofHeader[i] !== 'goes') return;
    for (const [inclusion, places] of placesByInclusion(header)) {
      let cutting = cuts.get(inclusion);
      if (cutting === undefined) {
        const { text } = files[inclusions[inclusion]!.file]!;
        cuts.set(inclusion, (cutting = new Cutting(text, keptData.get(inclusion) ?? new Set())));
      }
      cutting.takeOut(places);
    }
  });
  return new Map([...cuts].map(([inclusion, cutting]) => [inclusion, cutting.cuts]));
};

/** Ends of data that stays, by inclusion. */
const dataEnds = (
  headers: readonly Header[],
  ofHeader: Fates['ofHeader'],
): ReadonlyMap<number, Set<number>> => {
  const ends = new Map<number, Set<number>>();
  headers.forEach(({ opcodes }, i) => {
    if (ofHeader[i] === 'goes') return;
    for (const { name, place, inclusion } of opcodes) {
      if (name !== dataOpcode) continue;
      const known = ends.get(inclusion);
      if (known === undefined) ends.set(inclusion, new Set([place.end]));
      else known.add(place.end);
    }
  });
  return ends;
};

const placesByInclusion = (header: Header): ReadonlyMap<number, readonly Place[]> => {
  const places = new Map([[header.inclusion, [header.place]]]);
  for (const { inclusion, place } of header.opcodes) {
    const known = places.get(inclusion);
    if (known === undefined) places.set(inclusion, [place]);
    else known.push(place);
  }
  return places;
};

/** What goes of one reading of one file. */
class Cutting {
  readonly cuts: Cut[] = [];
  readonly #text: string;
  readonly #dataEnds: ReadonlySet<number>;
  /** The end of the last cut if data stands in front of it. */
  #dataBefore = -1;

  constructor(text: string, dataEnds: ReadonlySet<number>) {
    this.#text = text;
    this.#dataEnds = dataEnds;
  }

  /** @param places of one header and its opcodes, ascending; nothing of another lies between them */
  takeOut(places: readonly Place[]): void {
    const first = places[0]!;
    const before = this.#endOfThingBefore(first.start);
    let isBehindData = this.#dataEnds.has(before) || before === this.#dataBefore;
    let { start, end } = first;
    let behindOpenDefine = false;
    for (const place of places.slice(1)) {
      let at = end;
      for (let token = tokenAt(this.#text, at); token.start < place.start;) {
        if (token.kind === 'define' || token.kind === 'include') {
          if (start < end) this.cuts.push({ start, end, behindOpenDefine });
          start = place.start;
          end = start;
          behindOpenDefine = token.open;
          isBehindData = false;
        } else if (token.kind !== 'line-end') {
          start = Math.min(start, token.start);
          end = token.end;
        }
        at = token.end;
        token = tokenAt(this.#text, at);
      }
      end = place.end;
    }
    end = this.#endBehind(end, isBehindData);
    this.cuts.push({ start, end, behindOpenDefine });
    this.#dataBefore = isBehindData ? end : -1;
  }

  /**
   * Comments go, and what the reader skips, to the end of the line. Behind data all of it goes up to the
   * next header or directive: it would become part of the data.
   */
  #endBehind(from: number, isBehindData: boolean): number {
    let end = from;
    for (let at = from; ;) {
      const token = tokenAt(this.#text, at);
      if (token.kind === 'comment' || token.kind === 'junk') end = token.end;
      else if (token.kind !== 'line-end' || !isBehindData) return end;
      at = token.end;
    }
  }

  /** Back over white space. */
  #endOfThingBefore(start: number): number {
    let at = start;
    for (; at > 0; at -= 1) {
      const code = this.#text.charCodeAt(at - 1);
      if (!isLineEnd(code) && !isBlank(code)) break;
    }
    return at;
  }
}
