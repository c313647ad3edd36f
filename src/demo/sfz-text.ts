/** Opcodes in the order in which they are written. */
export type Opcodes = Readonly<Record<string, string | number>>;

/** A header with its opcodes on one line, as `<region> sample=a.wav key=60`. */
export const header = (
  name: 'control' | 'global' | 'master' | 'group' | 'region',
  opcodes: Opcodes,
): string =>
  [`<${name}>`, ...Object.entries(opcodes).map(([key, value]) => `${key}=${String(value)}`)].join(
    ' ',
  );

/** Lines of an SFZ file; an empty one stands between what is not alike. */
export const sfzText = (lines: readonly string[]): string => [...lines, ''].join('\n');

/** Keys that share a sample, and the one at which it was recorded. */
export interface Stretch {
  readonly lo: number;
  readonly centre: number;
  readonly hi: number;
}

/** Covers `lo` to `hi` by samples `step` keys apart, each recorded at about the middle of its keys. */
export const stretches = (lo: number, hi: number, step: number): readonly Stretch[] =>
  Array.from({ length: Math.ceil((hi - lo + 1) / step) }, (_, i) => {
    const from = lo + i * step;
    const to = Math.min(from + step - 1, hi);
    return { lo: from, centre: Math.min(from + Math.floor((step - 1) / 2), to), hi: to };
  });

/** The opcodes of a stretch. */
export const keysOfStretch = ({ lo, centre, hi }: Stretch): Opcodes => ({
  lokey: lo,
  hikey: hi,
  pitch_keycenter: centre,
});

/** A key as it stands in the names of files: three digits. */
export const threeDigits = (key: number): string => String(key).padStart(3, '0');
