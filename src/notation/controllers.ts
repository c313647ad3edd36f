import type { Range } from '../terms/range.ts';
import { parseList } from './list.ts';
import { parseRange } from './range.ts';
import { tidy } from './tidy.ts';

/** A controller and the values it must have. */
export interface ControllerRange {
  /** MIDI controller number, 0-127. */
  readonly number: number;
  /** Values, 0-127. */
  readonly range: Range;
}

const controller = /^(?:cc ?)?(\d{1,3}) ?: ?(.{1,20})$/iu;

/**
 * One controller and its values: `1:0-63`, `CC1: 64`.
 *
 * @returns null when it cannot be read
 */
export const parseController = (text: string): ControllerRange | null => {
  const [, digits, values] = controller.exec(tidy(text)) ?? [];
  if (digits === undefined || values === undefined) return null;
  const range = parseRange(values);
  return range === null || Number(digits) > 127 ? null : { number: Number(digits), range };
};

/**
 * Conditions on controllers: alternatives divided by `|`, and in each those that must hold together,
 * joined by `&`.
 *
 * @returns the alternatives in the order written; null when a part cannot be read
 * @example parseControllers('1:0-63 & 11:64-127')
 * // [[{ number: 1, range: [0, 63] }, { number: 11, range: [64, 127] }]]
 */
export const parseControllers = (text: string): readonly (readonly ControllerRange[])[] | null =>
  parseList(text, '|', (together) => parseList(together, '&', parseController));
