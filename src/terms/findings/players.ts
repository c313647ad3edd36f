/** How players load, and what their displays were read to show. */
export interface PlayerFindings {
  /** A reading for an articulation that the instrument does not have. */
  'reading-articulation': {
    readonly instrument: string;
    readonly articulation: string;
    readonly near: string | null;
  };
  /**
   * Readings that no fixed part and no factor can explain, such as less memory for more samples.
   * `used`: the reading that is relied on in the end.
   */
  'readings-contradict': { readonly instrument: string; readonly used: string };
}
