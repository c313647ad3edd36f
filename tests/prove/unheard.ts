import { readFile } from 'node:fs/promises';
import { parseMidi } from 'midi-file';
import type { PlayedSample } from './cue-plan.ts';
import type { Renders } from './renders.ts';

/** Why a poisoned sample that is played may not be heard. Each is checked, none is believed. */
export type Unheard =
  /** Kept samples cover all its points, so that nothing could be poisoned. */
  | 'shared-points'
  /** All sound off (controller 120) stands in the tick of every note that plays it. */
  | 'sound-off-in-tick'
  /** Its attenuation puts it below the last of 16 bits: twenty times louder it is heard. */
  | 'below-last-bit';

const soundOffTicks = async (cue: string): Promise<ReadonlySet<number>> => {
  const ticks = new Set<number>();
  for (const track of parseMidi(await readFile(cue)).tracks) {
    let tick = 0;
    for (const event of track) {
      tick += event.deltaTime;
      if (event.type === 'controller' && event.controllerType === 120) ticks.add(tick);
    }
  }
  return ticks;
};

/** The checked reason why nothing was heard, or null: then the plan keeps what is not played. */
export const reasonUnheard = async (
  renders: Renders,
  cue: string,
  clean: string,
  poisoned: { readonly bank: string; readonly words: number; readonly played: PlayedSample },
): Promise<Unheard | null> => {
  if (poisoned.words === 0) return 'shared-points';
  const { notes, witnesses } = poisoned.played;
  const off = await soundOffTicks(cue);
  if (notes <= witnesses.length && witnesses.every(({ tick }) => off.has(tick))) {
    return 'sound-off-in-tick';
  }
  const loud = { name: 'fluidsynth', gain: 10 } as const;
  return (await renders.same(loud, clean, poisoned.bank, cue)) ? null : 'below-last-bit';
};
