import { doubtSet } from '../../terms/doubt.ts';
import type { Compiling } from './compiling.ts';
import type { OutlineArticulation } from './outline.ts';
import type { OutlineZone } from './outline-zone.ts';

const stretch = doubtSet('stretch');

/**
 * A key goes down. A zone that stands for whatever was recorded may hold what plays when the key goes
 * up as well, or what leads back to a key that is held: that is read with the switches of then.
 */
export const noteStarts = (
  { own, gates, starts, doubt }: Compiling,
  { keys }: OutlineZone,
  zone: number,
): void => {
  const gate = gates.of([...gates.choice(own), ...gates.when(own, true)]);
  const all = { zone, event: 'note-on', gate } as const;
  starts.add({ ...all, keys: keys.plain, doubt });
  starts.add({ ...all, keys: keys.doubtful, doubt: doubt | stretch });
  const choice = gates.choice(own);
  if (own.sampled !== null || choice.length === 0 || asksMore(own)) return;
  const later = gates.of(choice);
  for (const event of ['release', 'note-off'] as const) {
    starts.add({ zone, event, gate: later, keys: keys.plain, doubt: doubt | stretch });
  }
};

/** What must hold at the note-on beside the switch, but for the velocity, is not read again later. */
const asksMore = ({ when }: OutlineArticulation): boolean =>
  when.controllers.length > 0 || when.pressure !== null || when.held !== null;
