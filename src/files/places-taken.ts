/** Whether this process has begun to put a file or folder into its place. */
let begun = false;

/** To be said before a finished draft takes its place: an interruption may come in the middle. */
export const takesPlace = (): void => {
  begun = true;
};

/** False: nothing that was there before this process has changed, and nothing new is there. */
export const isPlaceTaken = (): boolean => begun;
