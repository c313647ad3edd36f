/** What a command leaves behind besides its output. */
export interface Outcome {
  code: number;
}
