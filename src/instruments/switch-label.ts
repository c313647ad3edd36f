import type { SwitchTest } from '../notation/switch.ts';
import { keyLabel } from '../terms/key.ts';
import { rangeText } from './zone-name.ts';

/**
 * A switch in words, with key 60 as C4. Equal switches have equal words.
 *
 * @example switchLabel({ kind: 'key', key: 24 }) // 'C1 (24)'
 * @example switchLabel({ kind: 'controller', number: 32, range: [0, 20] }) // 'CC 32 0-20'
 */
export const switchLabel = (test: SwitchTest): string => {
  switch (test.kind) {
    case 'key':
      return keyLabel(test.key);
    case 'program':
      return `program ${rangeText(test.range)}`;
    case 'controller':
      return `CC ${String(test.number)} ${rangeText(test.range)}`;
    case 'channel':
      return `channel ${String(test.channel + 1)}`;
  }
};
