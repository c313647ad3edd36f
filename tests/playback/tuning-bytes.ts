/** Tuning messages as hex, without the F0 in front and the F7 behind. */
export const bytes = (hex: string): Uint8Array =>
  Uint8Array.from(hex.trim().split(/\s+/), (byte) => Number.parseInt(byte, 16));

export const repeat = (times: number, hex: string): string =>
  Array.from({ length: times }, () => hex).join(' ');

/** A tuning name of 16 characters. */
export const programName = repeat(16, '41');

const hex = (byte: number): string => byte.toString(16).padStart(2, '0');

/** A dump of 128 keys: those given by their frequency data, the others in equal temperament. */
export const keyDump = (head: string, tuned: Readonly<Record<number, string>> = {}): string => {
  const keys = Array.from({ length: 128 }, (_, key) => tuned[key] ?? `${hex(key)} 00 00`);
  return `${head} ${programName} ${keys.join(' ')} 00`;
};
