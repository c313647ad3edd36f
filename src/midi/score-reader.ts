import { inputError } from '../terms/errors.ts';
import { chunkIdAt } from './bytes.ts';
import { chunksIn, isCut, type Chunk } from './chunks.ts';
import { Columns } from './columns.ts';
import { headerLength, readHeader, type Header } from './header.ts';
import { Notices } from './notices.ts';
import type { Division, Score } from './score.ts';
import { draftTimeline, finishTimeline, type TimelineDraft } from './timeline-draft.ts';
import { readTrack, type TrackDraft } from './track-reader.ts';

/** As many as a header can promise. More are counted as missing, not read. */
const mostTracks = 0xffff;

/** Never used for a note: a first header without a division ends the reading. */
const fallback: Division = { kind: 'metrical', ticksPerQuarter: 480 };

/** One header and the tracks behind it. A file has one; two files in a row have two. */
interface Section {
  readonly at: number;
  readonly format: Score['format'];
  readonly division: Division;
  readonly promised: number;
  present: number;
}

/** Reads the chunks of one file, in order. */
export class ScoreReader {
  private readonly bytes: Uint8Array;
  private readonly file: string;
  private readonly notices: Notices;
  private readonly columns: Columns;
  private readonly timelines: TimelineDraft[] = [];
  private readonly tracks: TrackDraft[] = [];
  private missing = 0;
  /** Neighbouring chunks of unknown kind, told as one: padding would make thousands. */
  private unknown: { readonly first: Chunk; end: number } | null = null;

  constructor(bytes: Uint8Array, file: string) {
    this.bytes = bytes;
    this.file = file;
    this.notices = new Notices(file);
    this.columns = new Columns(bytes.length);
  }

  /** @param smf where the file lies, beginning with a header chunk */
  read(smf: Chunk): Score {
    if (isCut(smf)) this.tellCut(smf);
    let section: Section | null = null;
    let format: Score['format'] | null = null;
    for (const chunk of chunksIn(this.bytes, smf.start, smf.end)) {
      if (section !== null && chunk.id !== 'MThd' && chunk.id !== 'MTrk') {
        this.unknown ??= { first: chunk, end: chunk.end };
        this.unknown.end = chunk.end;
      } else {
        this.tellUnknown();
        if (section !== null && chunk.id === 'MTrk') this.readTrack(chunk, section, smf.end);
        else {
          if (section !== null) this.close(section);
          section = this.open(chunk, section);
          format ??= section.format;
        }
      }
      if (isCut(chunk)) this.tellCut(chunk);
    }
    this.tellUnknown();
    if (section !== null) this.close(section);
    if (this.tracks.length === 0) this.notices.add('warning', 'midi-no-tracks', {}, null);
    return this.score(format ?? 1);
  }

  private open(chunk: Chunk, before: Section | null): Section {
    const at = { byte: chunk.at };
    const header = readHeader(this.bytes, chunk);
    if (before !== null) this.notices.add('warning', 'midi-header-repeated', {}, at);
    this.tellHeader(chunk, header, before !== null);
    const format = header === null ? (before?.format ?? 1) : formatOf(header);
    const division = header?.division ?? before?.division ?? fallback;
    const promised = header?.tracks ?? 0;
    if (format !== 2) this.timelines.push(draftTimeline(division));
    return {
      at: chunk.at,
      format,
      division,
      // A header that claims the rest of the file may hide tracks.
      promised: isCut(chunk) ? Math.max(1, promised) : promised,
      present: 0,
    };
  }

  /** A first header that says nothing usable ends the reading; a further one is only reported. */
  private tellHeader(chunk: Chunk, header: Header | null, further: boolean): void {
    const at = { byte: chunk.at };
    if (header === null) {
      const args = { length: chunk.end - chunk.start };
      if (!further) throw inputError('midi-header-cut', this.file, args, at);
      this.notices.add('warning', 'midi-header-cut', args, at);
      return;
    }
    if (header.division === null) {
      if (!further) throw inputError('midi-division-zero', this.file, {}, at);
      this.notices.add('warning', 'midi-division-zero', {}, at);
    }
    const { format } = header;
    if (format > 2) this.notices.add('warning', 'midi-format-unknown', { format }, at);
    if (chunk.promised !== headerLength) {
      this.notices.add('note', 'midi-header-length', { length: chunk.promised }, at);
    }
  }

  private readTrack(chunk: Chunk, section: Section, end: number): void {
    section.present += 1;
    if (this.tracks.length === mostTracks) {
      this.missing += 1;
      return;
    }
    if (section.format === 2) this.timelines.push(draftTimeline(section.division));
    const timeline = this.timelines.length - 1;
    const next = chunkIdAt(this.bytes, chunk.end, end);
    const followed = chunk.end === end || next === 'MTrk' || next === 'MThd';
    const place = {
      index: this.tracks.length,
      timeline,
      draft: this.timelines[timeline] as TimelineDraft,
      columns: this.columns,
      notices: this.notices,
    };
    const { start } = chunk;
    const doubtful = isCut(chunk) || !followed;
    this.tracks.push(readTrack(this.bytes, { start, end: chunk.end, doubtful }, place));
  }

  private close(section: Section): void {
    const { promised, present } = section;
    const at = { byte: section.at };
    if (present < promised) {
      this.missing += promised - present;
      this.notices.add('warning', 'tracks-missing', { promised, present }, at);
    } else if (present > promised) {
      this.notices.add('note', 'tracks-beyond-header', { promised, present }, at);
    }
  }

  private tellCut(chunk: Chunk): void {
    const { id, promised, start, end, at } = chunk;
    this.notices.add('warning', 'chunk-cut', { id, promised, present: end - start }, { byte: at });
  }

  private tellUnknown(): void {
    if (this.unknown === null) return;
    const { first, end } = this.unknown;
    this.unknown = null;
    const args = { id: first.id, length: end - first.start };
    this.notices.add('note', 'chunk-unknown', args, { byte: first.at });
  }

  private score(format: Score['format']): Score {
    if (this.timelines.length === 0) this.timelines.push(draftTimeline(fallback));
    const timelines = this.timelines.map(finishTimeline);
    this.columns.trim();
    return {
      format,
      timelines,
      tracks: this.tracks.map(({ track, from, to }) => ({
        ...track,
        events: this.columns.view(from, to),
      })),
      missingTracks: this.missing,
      findings: this.notices.placed(timelines),
    };
  }
}

/** A format the standard does not know is read like 1: its tracks share their time. */
const formatOf = (header: Header): Score['format'] =>
  header.format === 0 || header.format === 2 ? header.format : 1;
