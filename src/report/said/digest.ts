/** Enough of a digest to compare by eye. */
const digestFigures = 12;

/** A digest as it stands in sentences and tables. */
export const shortDigest = (sha256: string): string => sha256.slice(0, digestFigures);
