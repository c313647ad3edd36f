import type { ComparedReading, Comparison, RefittedPlayer } from '../keep/reel/reel-memory.ts';
import { fixed, name, type Cell } from './cell.ts';
import { basisSign } from './figure-basis.ts';
import { bytesIn, formatBytes, formatCount, plural, tableUnit, type ByteUnit } from './format.ts';
import type { Look } from './look.ts';
import { largestOf } from './memory-words.ts';
import { nameInText } from './name-list.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown } from './table.ts';
import { verbatim } from './verbatim.ts';

/** What players show against what was estimated; nothing where it was not asked for. */
export const memoryComparison = (comparison: Comparison | null, look: Look): readonly string[] => {
  if (comparison === null) return [];
  const { colors, width } = look;
  const { file, rows, players } = comparison;
  const heading = {
    text: `Readings of the players (${nameInText(file, look)})`,
    paint: colors.bold,
  };
  if (rows.length === 0) return paragraph([heading, 'hold nothing to compare.'], width);
  return [
    ...paragraph([heading], width),
    '',
    ...table(rows, look),
    ...(rows.some((row) => row.refitted === null)
      ? paragraph(
          [
            'Where nothing is refitted, readings of the instrument in the template (measured) decide.',
          ],
          width,
        )
      : []),
    ...players.flatMap((player) => refitted(player, look)),
  ];
};

const signed = (count: number, unit: ByteUnit): string =>
  `${count > 0 ? '+' : count < 0 ? '-' : ''}${bytesIn(Math.abs(count), unit)}`;

/** An error in per cent of what is shown, with one decimal. */
const percent = (error: number, shown: number): string => {
  if (shown === 0) return '';
  const share = ((Math.abs(error) / shown) * 100).toFixed(1);
  return `${share === '0.0' ? '' : error > 0 ? '+' : '-'}${share} %`;
};

const table = (rows: readonly ComparedReading[], look: Look): readonly string[] => {
  const unit = tableUnit(
    largestOf(rows.map(({ shown, estimate }) => Math.max(shown, estimate.high))),
  );
  const copies = rows.some(({ copy }) => copy !== null);
  const { text, leftOut } = layOut(
    [
      { title: ['Instrument'], align: 'left', min: 10 },
      ...(copies ? [{ title: ['Copy'], align: 'left' as const, min: 6, leaveOut: 3 }] : []),
      { title: ['Shown', unit.name], align: 'right' },
      { title: ['Estimate', unit.name], align: 'right' },
      { title: [''], align: 'left' },
      { title: ['Shown less', 'estimate', unit.name], align: 'right' },
      { title: ['of', 'shown'], align: 'right', leaveOut: 2 },
      { title: ['Refitted', unit.name], align: 'right', leaveOut: 1 },
    ],
    rows.map((row): readonly Cell[] => [
      name(row.instrument, look),
      ...(copies ? [row.copy === null ? fixed('all') : name(row.copy, look)] : []),
      fixed(bytesIn(row.shown, unit)),
      fixed(bytesIn(row.estimate.bytes, unit)),
      fixed(basisSign[row.estimate.basis], look.colors.dim),
      fixed(signed(row.error, unit)),
      fixed(percent(row.error, row.shown)),
      fixed(row.refitted === null ? '' : bytesIn(row.refitted, unit)),
    ]),
    look,
  );
  return [text, ...notShown(leftOut, look)];
};

/** A number for the template, where bytes are read as whole ones: no digits that say nothing. */
const decimals = (value: number, most: number): string => String(Number(value.toFixed(most)));

const refitted = (player: RefittedPlayer, look: Look): readonly string[] => {
  const { id, readings, worstBefore, worstAfter, keys } = player;
  // Less than that is rounding: who follows it is told the same again.
  const isBetter = worstBefore - worstAfter > worstBefore / 50;
  const worst = isBetter
    ? `fitted to them, the worst error falls from ${formatBytes(worstBefore)} to ${formatBytes(worstAfter)}.`
    : worstAfter > worstBefore + worstBefore / 50
      ? `a line through them makes the worst error larger, ${formatBytes(worstAfter)} instead of ${formatBytes(worstBefore)}: leave the player as it is.`
      : `its keys fit them already; the worst error is ${formatBytes(worstBefore)}.`;
  const useful = keys !== null && isBetter;
  return [
    '',
    ...paragraph(
      [
        { text: `Player ${nameInText(id, look)}`, paint: look.colors.bold },
        `(${plural(readings, 'reading')}${player.measured === 0 ? '' : `, ${formatCount(player.measured)} more in the template`}): ${worst}`,
        ...(useful ? ['Set these keys of the player in the template, and plan again:'] : []),
      ],
      look.width,
    ),
    ...(useful
      ? verbatim(
          [
            `per-copy: ${decimals(keys['per-copy'], 0)} B`,
            `per-zone: ${decimals(keys['per-zone'], 0)} B`,
            `factor: ${String(keys.factor)}`,
          ],
          look,
        )
      : []),
  ];
};
