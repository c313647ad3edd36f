/** Between a switch or controller and a note, in seconds, where order is what the file says. */
const usual = 0.06;

/** On the safe side of what is rounded to ticks. */
const margin = 0.03;

/**
 * Seconds between a switch or controller and the note that needs it, and after a note's end.
 *
 * @param slack seconds within which a switch and a note may stand in either order
 */
export const settleOf = (slack = 0): number =>
  slack === 0 ? usual : Math.max(usual, slack + margin);
