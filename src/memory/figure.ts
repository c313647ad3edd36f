/** An amount of memory in whole bytes: the likely figure and what it may be at the least and most. */
export interface Figure {
  readonly bytes: number;
  readonly low: number;
  readonly high: number;
}

/** Whole bytes, halves up. */
export const wholeBytes = (bytes: number): number => Math.floor(bytes + 0.5);

/**
 * A figure from what several lines say.
 *
 * @param known bytes that are certain, on top of what the lines say
 * @param said what each line says, the likely one first
 * @param room by how much the lines may be off, either way
 */
export const figureOf = (
  known: number,
  said: readonly [number, ...number[]],
  room: number,
): Figure => ({
  bytes: wholeBytes(known + said[0]),
  low: wholeBytes(known + Math.max(0, Math.min(...said) - room)),
  high: wholeBytes(known + Math.max(...said) + room),
});

/** Figures of things that have nothing in common. */
export const figureSum = (figures: readonly Figure[]): Figure =>
  figures.reduce(
    (a, b) => ({ bytes: a.bytes + b.bytes, low: a.low + b.low, high: a.high + b.high }),
    {
      bytes: 0,
      low: 0,
      high: 0,
    },
  );
