/** The plan as a whole. */
export interface PlanFindings {
  /** `bytes`: what unloading all of it would free. */
  'instrument-unused': { readonly instrument: string; readonly bytes: number };
  /** Only tracks that are audio already play it: as those need nothing, neither does it. */
  'instrument-printed': { readonly instrument: string; readonly bytes: number };
  /** Notes for which the instrument has no zone, by key or velocity. */
  'notes-without-zone': {
    readonly instrument: string;
    readonly notes: number;
    readonly keys: readonly number[];
    readonly cues: readonly string[];
    readonly tracks: readonly (string | null)[];
  };
  /** Notes that sound only through a doubt that was settled as plain: they would be silent. */
  'settled-silent': {
    readonly instrument: string;
    readonly notes: number;
    readonly doubts: readonly string[];
    readonly cues: readonly string[];
  };
  'nothing-saved': Record<string, never>;
  'machine-over-budget': {
    readonly machine: string;
    readonly high: number;
    readonly budget: number;
  };
  /** Switches are pressed on tracks of their own, and the tracks with the notes press none. */
  'join-suggested': {
    readonly instrument: string;
    readonly switches: readonly string[];
    readonly notes: readonly string[];
  };
  /** No switch of the instrument is ever pressed, but keys that many octaves off are. */
  'switch-octave-off': {
    readonly instrument: string;
    readonly expected: readonly number[];
    readonly seen: readonly number[];
    readonly octaves: number;
  };
  'pin-articulation': {
    readonly instrument: string;
    readonly articulation: string;
    readonly near: string | null;
  };
}
