import type { Range } from '../terms/range.ts';
import { parseController } from './controllers.ts';
import { parseKey } from './key.ts';
import { parseRange } from './range.ts';
import { tidy } from './tidy.ts';

/** What a musician sends to choose an articulation. */
export type SwitchTest =
  | { readonly kind: 'key'; /** 0-127. */ readonly key: number }
  | { readonly kind: 'program'; /** Programs, 0-127. */ readonly range: Range }
  | {
      readonly kind: 'controller';
      /** MIDI controller number, 0-127. */
      readonly number: number;
      /** Values, 0-127. */
      readonly range: Range;
    }
  | {
      readonly kind: 'channel';
      /** From 0, where people write from 1. */ readonly channel: number;
    };

/**
 * A switch as a manual or a table names it: a key (`C0`, `24`), a program change (`program 5`,
 * `program 5-9`, counted from 0), a controller (`cc 32: 0-20`, `cc32:5`) or a channel (`channel 3`,
 * 1 to 16).
 *
 * @param middleC the octave that key 60 bears
 * @returns null when it cannot be read
 * @example parseSwitch('C0', 4) // { kind: 'key', key: 12 }
 */
export const parseSwitch = (text: string, middleC: number): SwitchTest | null => {
  const tidied = tidy(text).toLowerCase();
  const program = /^program ?(.{1,20})$/u.exec(tidied)?.[1];
  if (program !== undefined) {
    const range = parseRange(program);
    return range === null ? null : { kind: 'program', range };
  }
  const channel = /^channel ?(\d{1,2})$/u.exec(tidied)?.[1];
  if (channel !== undefined) {
    const from0 = Number(channel) - 1;
    return from0 >= 0 && from0 < 16 ? { kind: 'channel', channel: from0 } : null;
  }
  if (tidied.startsWith('cc')) {
    const controller = parseController(tidied);
    return controller === null ? null : { kind: 'controller', ...controller };
  }
  const key = parseKey(tidied, middleC);
  return key === null ? null : { kind: 'key', key };
};
