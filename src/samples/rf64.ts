import { chunkIdAt } from '../midi/bytes.ts';
import type { HeaderBytes } from './header-bytes.ts';
import { viewOf, wideAt } from './numbers.ts';

const tableStart = 36;
const rowBytes = 12;
/** More chunks than this above 4 GiB are not looked up. */
const mostRows = 16;

/**
 * The 64-bit sizes of an RF64 or BW64 file by chunk id (EBU Tech 3306, annex A.2; ITU-R BS.2088): the
 * `ds64` chunk comes first and holds the sizes of the file, of `data`, the frames, and a table of
 * other large chunks. Empty when it is missing or cut. A size of 0 was never filled in and is left
 * out.
 */
export const readWideSizes = async (bytes: HeaderBytes): Promise<ReadonlyMap<string, number>> => {
  const sizes = new Map<string, number>();
  const ds64 = await bytes.view(12, tableStart + mostRows * rowBytes);
  if (ds64.length < tableStart || chunkIdAt(ds64, 0) !== 'ds64') return sizes;
  const view = viewOf(ds64);
  const put = (id: string, size: number): void => {
    if (size > 0 && !sizes.has(id)) sizes.set(id, size);
  };
  put('data', wideAt(view, 16));
  const end = Math.min(8 + view.getUint32(4, true), ds64.length);
  const rows = end < tableStart ? 0 : view.getUint32(32, true);
  for (let row = 0; row < rows; row += 1) {
    const at = tableStart + row * rowBytes;
    if (at + rowBytes > end) break;
    put(chunkIdAt(ds64, at), wideAt(view, at + 4));
  }
  return sizes;
};
