/** Why the system refused, as data; the words are in `report/messages`. */
export interface Reason {
  /** Nothing is at the path. */
  readonly missing: boolean;
  /** The system's name for it, such as `EACCES`. */
  readonly code: string;
}

/** Takes a system error apart; anything else is passed on as it is. */
export const reasonOf = (error: unknown): Reason => {
  if (!(error instanceof Error) || !('code' in error)) throw error;
  const code = String(error.code);
  return { missing: code === 'ENOENT' || code === 'ENOTDIR', code };
};
