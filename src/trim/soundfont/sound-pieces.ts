import type { BankFile } from '../../instruments/soundfont/bank-file.ts';
import { usesSm24 } from '../../instruments/soundfont/samples.ts';
import type { Piece } from '../output-file.ts';
import { sizeOf, type Interval } from './intervals.ts';
import { chunkPieces, madePiece } from './riff-pieces.ts';

/**
 * The chunks of the `sdta` list: the stretches of sound that stay, and as much of the low bytes of
 * 24-bit sound where these count. Without any point there is no chunk (SoundFont 2.04, section 6).
 *
 * @param size bytes of the bank's file
 */
export const soundPieces = (
  bank: BankFile,
  size: number,
  stretches: readonly Interval[],
): readonly Piece[] => {
  const { path, smpl, sm24 } = bank;
  const points = sizeOf(stretches);
  if (smpl === null || points === 0) return [];
  const copies = (chunkStart: number, width: number): readonly Piece[] =>
    stretches.map(({ from, to }) => ({
      kind: 'copy',
      path,
      start: chunkStart + from * width,
      length: (to - from) * width,
      size,
    }));
  const high = chunkPieces('smpl', copies(smpl.start, 2));
  if (sm24 === null || !usesSm24(bank)) return high;
  // The size itself is rounded up to an even number, not only the place the chunk takes (6.2).
  const filling = madePiece(new Uint8Array(points % 2));
  return [...high, ...chunkPieces('sm24', [...copies(sm24.start, 1), filling])];
};
