/** A stretch of time, both ends in seconds; `to` may be Infinity. */
export interface TimeSpan {
  readonly from: number;
  readonly to: number;
}

/** Joins spans that overlap or touch; they ascend then. */
export const joinSpans = (spans: readonly TimeSpan[]): readonly TimeSpan[] => {
  const joined: { from: number; to: number }[] = [];
  for (const { from, to } of [...spans].sort((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
    else joined.push({ from, to });
  }
  return joined;
};
