import type { Finding } from '../../../terms/finding.ts';

/** A stretch of a file: offsets into {@link SfzFile.text} (UTF-16 units), line and column from 1. */
export interface Place {
  /** Index into {@link SfzDocument.files}. */
  readonly file: number;
  readonly start: number;
  readonly end: number;
  readonly line: number;
  /** In characters. */
  readonly column: number;
}

/** One file that was read, kept once however often it is included. */
export interface SfzFile {
  /** The root as it was asked for; an include as its path from the root's folder leads to it. */
  readonly path: string;
  /** Decoded, without a byte order mark. */
  readonly text: string;
  readonly encoding: 'utf-8' | 'windows-1252' | 'utf-16';
}

/** One reading of a file: each include is one of its own, of the same file too. */
export interface Inclusion {
  /** Index into {@link SfzDocument.files}. */
  readonly file: number;
  /** The inclusion whose file holds the directive; -1 for the root, which nothing includes. */
  readonly parent: number;
  /** The directive; null for the root. */
  readonly place: Place | null;
  /** The path as the directive names it, variables expanded; empty for the root. */
  readonly written: string;
}

export interface Opcode {
  /** Lower case, variables expanded, of several spellings always the same one. */
  readonly name: string;
  /** Variables expanded, blanks at the end cut off; the text of `base64data` as it stands. */
  readonly value: string;
  /** The whole `name=value` as it stands in its file, without blanks at the end. */
  readonly place: Place;
  /** Where it was read: index into {@link SfzDocument.inclusions}. */
  readonly inclusion: number;
}

export interface Header {
  /** As written, without the angle brackets; headers in capitals are other headers. */
  readonly name: string;
  /** The header alone, with its angle brackets. */
  readonly place: Place;
  /** Where it was read: index into {@link SfzDocument.inclusions}. */
  readonly inclusion: number;
  /** In reading order; those of an included file may be among them. */
  readonly opcodes: readonly Opcode[];
}

/** An SFZ file and what it includes, taken apart but not interpreted. */
export interface SfzDocument {
  /** The root first, the others as they were first included. */
  readonly files: readonly SfzFile[];
  /** In the order in which their reading begins, so that each stands behind its parent. */
  readonly inclusions: readonly Inclusion[];
  /** In reading order, what is included in its place; headers without a meaning here too. */
  readonly headers: readonly Header[];
  readonly findings: readonly Finding[];
}
