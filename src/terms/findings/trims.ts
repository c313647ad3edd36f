/** What `trim` may find. */
export interface TrimFindings {
  /** Cues are damaged, and nobody has accepted it. */
  readonly 'trim-damaged': { readonly cues: readonly string[] };
  /** Cues look as if something were missing, and nobody has said that they are whole. */
  readonly 'trim-partial': { readonly cues: readonly string[] };
  /** Tracks with notes reach no instrument, and nobody has accepted it. */
  readonly 'trim-unmapped': { readonly tracks: number };
  /** The template, an instrument or a cue is not what the plan was made with. */
  readonly 'trim-template-changed': Record<string, never>;
  readonly 'trim-instrument-changed': { readonly instrument: string };
  readonly 'trim-cue-changed': { readonly cue: string };
  /** Its files can't be rewritten: they stay as they are. */
  readonly 'trim-unwritable': { readonly instruments: readonly string[] };
  /** Nothing of them stays: nothing is written. */
  readonly 'trim-unplayed': { readonly instruments: readonly string[] };
  /** There is nothing to write at all. */
  readonly 'trim-nothing': Record<string, never>;
  /** What is at the output: a folder that is not this tool's, one that was made before, files of others in it. */
  readonly 'trim-out-exists': { readonly reason: 'not-ours' | 'ours' };
  readonly 'trim-out-others': { readonly names: readonly string[] };
  /** It is a link, or not a folder. */
  readonly 'trim-out-kind': { readonly kind: 'link' | 'file' };
  /** The output lies within an input, or the other way round. */
  readonly 'trim-out-input': { readonly input: string };
  readonly 'trim-no-space': { readonly needed: number; readonly free: number };
  /** A RIFF file can't be larger than 4 GiB. */
  readonly 'trim-too-large': { readonly bytes: number };
  /** Two files would take one name on a disk that does not tell capitals, or forms of accents, apart. */
  readonly 'trim-names-collide': { readonly first: string; readonly second: string };
  /** A file can't have a place in the output: its path is absolute, or no file name. */
  readonly 'trim-path': {
    readonly path: string;
    readonly reason: 'absolute' | 'hostile';
  };
  /** The written instrument does not do what the full one does. */
  readonly 'trim-unmet': {
    readonly instrument: string;
    readonly zone: number;
    readonly cue: string | null;
  };
  /** What was there before could not be removed; it is beside the new one now. */
  readonly 'trim-old-left': { readonly path: string };
  /** The plan of the written set would let more go. */
  readonly 'trim-more': { readonly instrument: string; readonly zones: number };
}
