/** A sound to be written to a file of its own. */
export interface SoundFile {
  /** 16-bit points, an array for each channel, all of one length. */
  readonly channels: readonly Int16Array[];
  /** Points per second. */
  readonly rate: number;
  /** With 24, the lowest eight bits are 0: the demo's sounds are made in 16. */
  readonly bits: 16 | 24;
}

/** Bytes of the points alone. */
export const soundBytes = ({ channels, bits }: SoundFile): number =>
  channels.length * channels[0]!.length * (bits / 8);

/**
 * Writes the points of all channels frame by frame.
 *
 * @param littleEndian as in WAVE; else as in AIFF
 */
export const writePoints = (
  view: DataView,
  start: number,
  { channels, bits }: SoundFile,
  littleEndian: boolean,
): void => {
  let at = start;
  for (let frame = 0; frame < channels[0]!.length; frame++) {
    for (const points of channels) {
      if (bits === 16) view.setInt16(at, points[frame]!, littleEndian);
      // The low byte of the three is 0 already.
      else view.setInt16(littleEndian ? at + 1 : at, points[frame]!, littleEndian);
      at += bits / 8;
    }
  }
};

/** Writes the four letters that name a chunk. */
export const writeId = (view: DataView, at: number, id: string): void => {
  for (let letter = 0; letter < 4; letter++) view.setUint8(at + letter, id.charCodeAt(letter));
};
