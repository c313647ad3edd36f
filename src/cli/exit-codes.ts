/** What the process returns; pinned by tests, listed in every help text. */
export const exitCodes = {
  /** Done, or proved. */
  done: 0,
  /** A check failed, or was not proved. */
  failed: 1,
  /** Wrong usage or bad input. */
  badInput: 2,
  /** A fault of keepset itself. */
  fault: 70,
  /** The user pressed Ctrl-C. */
  interrupted: 130,
} as const;

export const exitCodesHelp = `Exit codes: 0 done, 1 a check failed, 2 bad usage or input,
            70 a fault of keepset, 130 interrupted.`;
