import { parseByteCount } from '../../notation/bytes.ts';
import { parseSeconds } from '../../notation/duration.ts';
import { parseNumber } from '../../notation/number.ts';
import { shown } from './cell-text.ts';
import { sizeColumns } from './columns.ts';
import { assumed, framesOf, widths } from '../frames.ts';
import type { Sample } from '../instrument.ts';
import type { TableRow } from './table-row.ts';

/**
 * How large each sample of a row is: frames x channels x width are its bytes.
 *
 * A row in bytes need not come to whole frames (a file listing counts the header too), and may not
 * know its channels and bits at all. Where it says them and they divide the bytes, they are used.
 * Else the bytes count as frames of one byte, and the rate as bytes a second, so that the whole
 * sample and a head in bytes or seconds are right; a width that the player sets and a head in frames
 * go by what a frame is assumed to be.
 */
export interface SampleSize {
  readonly frames: number;
  readonly channels: number;
  /** Bytes of one frame of one channel. */
  readonly width: number;
  /** Frames a second. */
  readonly rate: number;
  readonly assumedFrame?: Sample['assumedFrame'] & {};
  /** Columns that a row in frames or seconds left empty, so that {@link assumed} stands for them. */
  readonly assumes: readonly (keyof typeof assumed)[];
}

const mostChannels = 64;
const rates = { least: 1_000, most: 1_000_000 } as const;

/** The largest sample, in bytes. Of the most zones a table may have, the sum is still exact. */
const mostBytes = 2 ** 35;

/** Reads the size columns of a row; null with a fault when there is no size in them. */
export const readSize = (row: TableRow, decimalComma: boolean): SampleSize | null => {
  const given = sizeColumns.filter((column) => row.text(column) !== '');
  const [column] = given;
  if (column === undefined) {
    row.fault('table-size-missing', 'keys', { columns: sizeColumns });
    return null;
  }
  if (given.length > 1) {
    row.fault('table-size-twice', given[1]!, { columns: given });
    return null;
  }
  const rate = row.read('rate', null, (text) => readRate(text, decimalComma));
  const bits = row.read('bits', null, (text) => readBits(text, decimalComma));
  const channels = row.read('channels', null, (text) => readChannels(text, decimalComma));
  const amount = row.read(column, null, (text) => amountReaders[column](text, decimalComma));
  if (!row.isSound || amount === null) return null;

  const sound = {
    rate: rate ?? assumed.rate,
    width: widths.get(bits ?? assumed.bits)!,
    channels: channels ?? assumed.channels,
  };
  const size =
    column === 'bytes'
      ? ofBytes(amount, sound, bits !== null && channels !== null)
      : {
          ...sound,
          frames: column === 'frames' ? amount : framesOf(amount, sound.rate),
          assumes: Object.entries({ rate, bits, channels }).flatMap(([name, value]) =>
            value === null ? [name as keyof typeof assumed] : [],
          ),
        };
  if (size.frames * size.channels * size.width > mostBytes) {
    row.fault('table-sample-too-large', column, {
      value: shown(row.text(column)),
      limit: mostBytes,
    });
    return null;
  }
  return size;
};

type Sound = Pick<SampleSize, 'rate' | 'width' | 'channels'>;

const ofBytes = (bytes: number, { rate, width, channels }: Sound, isKnown: boolean): SampleSize => {
  const frame = width * channels;
  if (isKnown && bytes % frame === 0) {
    return { frames: bytes / frame, channels, width, rate, assumes: [] };
  }
  return {
    frames: bytes,
    channels: 1,
    width: 1,
    rate: rate * frame,
    assumedFrame: { channels, width },
    assumes: [],
  };
};

const notNegative = (value: number | null): number | null =>
  value !== null && value >= 0 ? value : null;

const whole = (value: number | null): number | null => (Number.isInteger(value) ? value : null);

const amountReaders = {
  bytes: parseByteCount,
  frames: (text: string, decimalComma: boolean): number | null =>
    notNegative(whole(parseNumber(text, decimalComma))),
  seconds: (text: string, decimalComma: boolean): number | null =>
    notNegative(parseSeconds(text, decimalComma) ?? parseNumber(text, decimalComma)),
} as const;

/** `48000`, `48000 Hz`, `44.1 kHz`. */
const readRate = (text: string, decimalComma: boolean): number | null => {
  const [, figure = '', kilo] = /^(.*?)\s*(?:(k)?hz)?$/iu.exec(text) ?? [];
  const value = parseNumber(figure, decimalComma);
  if (value === null) return null;
  const rate = kilo === undefined ? value : Math.round(value * 1000);
  return Number.isInteger(rate) && rate >= rates.least && rate <= rates.most ? rate : null;
};

/** `24`, `24 bit`, `24-bit`. */
const readBits = (text: string, decimalComma: boolean): number | null => {
  const bits = parseNumber(text.replace(/[\s-]?bits?$/iu, ''), decimalComma);
  return bits !== null && widths.has(bits) ? bits : null;
};

const readChannels = (text: string, decimalComma: boolean): number | null => {
  const channels = whole(parseNumber(text, decimalComma));
  return channels !== null && channels >= 1 && channels <= mostChannels ? channels : null;
};
