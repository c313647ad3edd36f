/** A stretch of an output file: bytes that were made, or bytes that are copied from another file. */
export type Piece =
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  | {
      readonly kind: 'copy';
      /** The file it is copied from, as the job's disk sees it. */
      readonly path: string;
      /** Bytes from its start, and how many. */
      readonly start: number;
      readonly length: number;
      /** Bytes of the whole file when it was looked at: another size then is another file. */
      readonly size: number;
    };

/** A file to write: its pieces one after the other. */
export interface OutputFile {
  /** With `/`; from where paths of the source start, or within the output folder once it has a place. */
  readonly path: string;
  readonly pieces: readonly Piece[];
}

/** Bytes of a piece. */
export const lengthOf = (piece: Piece): number =>
  piece.kind === 'bytes' ? piece.bytes.length : piece.length;

/** Bytes that a file will have. */
export const bytesOf = ({ pieces }: OutputFile): number =>
  pieces.reduce((sum, piece) => sum + lengthOf(piece), 0);
