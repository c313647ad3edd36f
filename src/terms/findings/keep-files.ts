/** Reading a keep file. Nothing of one that has such a fault is used. */
export interface KeepFileFindings {
  /** No JSON; `cut`: it ends before it is complete. */
  'keep-file-json': { readonly cut: boolean };
  /** Larger than any keep file can be. */
  'keep-file-large': { readonly bytes: number };
  /** JSON of another kind, or of another version; null where it does not say. */
  'keep-file-schema': { readonly found: string | null };
  /** What stands at `at` is not what belongs there. */
  'keep-file-shape': {
    /** As in `instruments[3].kept[12].zone`; empty for the whole file. */
    readonly at: string;
    /** What belongs there, in a few words. */
    readonly expected: string;
    /** Id of the instrument in which it stands. */
    readonly instrument: string | null;
  };
  /** One part of it says something else than the rest, or than the instrument itself. */
  'keep-file-disagrees': {
    readonly what: Stated;
    readonly rule: Agreement;
    /** The zone, cue, copy, articulation, machine or doubt that it is said of; null where there is none. */
    readonly of: string | null;
    readonly says: string | number;
    /** What the rest comes to; null where nothing can stand against it. */
    readonly is: string | number | null;
    readonly instrument: string | null;
  };
}

/**
 * How something stands to the rest of the file. same: both are equal; most, least: the rest sets a
 * limit; known: a name that must be found elsewhere; once: it may not be repeated; never: it can't be.
 */
export type Agreement = 'same' | 'most' | 'least' | 'known' | 'once' | 'never';

/** What a keep file states that can be held against the rest of it. */
export type Stated =
  // The cues and what was asked for.
  | 'cue'
  | 'cue-track'
  | 'version'
  | 'versions'
  | 'versions-zones'
  | 'versions-bytes'
  | 'instrument-alone'
  | 'answer'
  | 'pin'
  | 'allowance-pins'
  | 'allowance-zones'
  | 'allowance-bytes'
  // An instrument as a whole.
  | 'instrument'
  | 'instruments'
  | 'instrument-machine'
  | 'zone'
  | 'zones'
  | 'zones-kept'
  | 'samples'
  | 'samples-kept'
  | 'samples-unknown'
  | 'bytes-reached'
  | 'bytes-kept'
  | 'bytes-low'
  | 'bytes-high'
  | 'readings'
  | 'residual'
  | 'preset-zone'
  | 'zone-entry'
  // Its copies.
  | 'copy'
  | 'copy-cue'
  | 'copy-switch'
  | 'copy-zone'
  | 'copy-zone-muted'
  | 'copy-zones'
  | 'zone-in-no-copy'
  // Its articulations.
  | 'articulation'
  | 'articulations'
  | 'articulation-switch'
  | 'articulation-zones'
  | 'articulation-zones-kept'
  | 'articulation-keys'
  | 'articulation-velocities'
  | 'articulation-bytes'
  | 'layers'
  | 'layer-zones'
  | 'layer-zones-kept'
  // Its zones.
  | 'zone-name'
  | 'zone-samples'
  | 'zone-articulation'
  | 'zone-articulations'
  | 'zone-bytes'
  | 'zone-reasons'
  | 'zone-doubts'
  | 'zone-notes'
  | 'zone-cue'
  | 'zone-cues'
  | 'zone-witness'
  | 'zone-witnesses'
  // Machines and sums.
  | 'machine'
  | 'machine-full'
  | 'machine-kept'
  | 'machine-low'
  | 'machine-high'
  | 'machine-fits'
  | 'total-zones'
  | 'total-zones-kept'
  | 'total-samples'
  | 'total-samples-kept'
  | 'total-full'
  | 'total-reached'
  | 'total-kept'
  | 'total-saved'
  // Doubts and what else was worked out.
  | 'doubt'
  | 'doubt-answer'
  | 'doubt-zones'
  | 'doubt-bytes'
  | 'doubts-bytes'
  | 'together'
  | 'together-names'
  | 'together-bytes'
  | 'printed-zones'
  | 'printed-bytes'
  | 'rare-unit'
  | 'rare-zone'
  | 'rare-articulation'
  | 'rare-samples'
  | 'rare-notes'
  | 'rare-cue'
  | 'rare-bytes'
  | 'curve-served'
  | 'curve-missed'
  | 'curve-zones'
  | 'curve-bytes';
