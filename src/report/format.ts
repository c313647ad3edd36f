/**
 * Numbers as people read them. No locale: the same on every machine. Only tables and sentences use
 * these; JSON and CSV carry plain whole numbers.
 */

/** A unit of memory and its size in bytes: 1 KiB is 1024 B. */
export interface ByteUnit {
  readonly name: 'B' | 'KiB' | 'MiB' | 'GiB';
  readonly size: number;
}

const gibibyte: ByteUnit = { name: 'GiB', size: 2 ** 30 };
const units: readonly ByteUnit[] = [
  { name: 'B', size: 1 },
  { name: 'KiB', size: 2 ** 10 },
  { name: 'MiB', size: 2 ** 20 },
  gibibyte,
];

const oneDecimal = (value: number): string => (Math.round(value * 10) / 10).toFixed(1);

/**
 * The unit in which a number of bytes reads best: the smallest in which it does not round to 1024.0
 * or more.
 */
export const byteUnit = (count: number): ByteUnit =>
  units.find(({ size }) => Math.round((count / size) * 10) < 10_240) ?? gibibyte;

/** How much of its unit the largest figure of a table comes to at least: a small row then still shows. */
const enough = 32;

/**
 * The one unit for a table whose largest figure is `largest` bytes: figures of one unit can be
 * compared at a glance, which those of several can not.
 */
export const tableUnit = (largest: number): ByteUnit =>
  units.findLast(({ size }) => largest >= enough * size) ?? byteUnit(0);

/** A number of whole things, thousands apart. @example formatCount(1203) // '1 203' */
export const formatCount = (count: number): string =>
  String(count).replace(/(?<=\d)(?=(?:\d{3})+$)/g, ' ');

/** Bytes in `unit`, without its name; `<0.1` for what rounds to nothing and is not nothing. */
export const bytesIn = (count: number, unit: ByteUnit): string => {
  if (unit.size === 1) return formatCount(count);
  const text = oneDecimal(count / unit.size);
  if (text === '0.0') return count === 0 ? '0' : '<0.1';
  const [whole = '', decimal = ''] = text.split('.');
  return `${formatCount(Number(whole))}.${decimal}`;
};

/** Three significant figures; from 1000 on, which only the largest unit comes to, whole. */
const threeFigures = (value: number): string => {
  const decimals = [100, 10, 1].findIndex((least) => Number(value.toPrecision(3)) >= least);
  return decimals === 0
    ? formatCount(Math.round(value))
    : value.toFixed(decimals === -1 ? 3 : decimals);
};

/**
 * Bytes as sentences have them: three significant figures, exact below 1 KiB. What would take four
 * figures is written in the next unit.
 *
 * @example formatBytes(812) // '812 B'
 * @example formatBytes(43_200_000) // '41.2 MiB'
 * @example formatBytes(1_060_000_000) // '0.987 GiB'
 */
export const formatBytes = (count: number): string => {
  const unit =
    count < 2 ** 10
      ? byteUnit(0)
      : (units.find(({ name, size }) => name !== 'B' && Math.round(count / size) < 1000) ??
        gibibyte);
  const text = unit.size === 1 ? formatCount(count) : threeFigures(count / unit.size);
  return `${text} ${unit.name}`;
};

/** Seconds as minutes and seconds, with hours from one hour on. @example formatDuration(134.6) // '2:15' */
export const formatDuration = (seconds: number): string => {
  const whole = Math.round(seconds);
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor(whole / 60) % 60;
  const pair = (value: number): string => String(value).padStart(2, '0');
  return hours > 0
    ? `${String(hours)}:${pair(minutes)}:${pair(whole % 60)}`
    : `${String(minutes)}:${pair(whole % 60)}`;
};

/** A share in per cent, rounded down so that `100 %` means all of it; null of nothing. */
export const formatShare = (part: number, whole: number): string | null => {
  if (whole === 0) return null;
  const share = Math.floor((part / whole) * 100);
  return part > 0 && share === 0 ? '<1 %' : `${String(share)} %`;
};

/** A count with its noun. @example plural(2, 'zone') // '2 zones' */
export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${formatCount(count)} ${count === 1 ? one : many}`;
