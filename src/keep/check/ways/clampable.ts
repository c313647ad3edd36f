import type { Program } from '../../../instruments/program.ts';
import { selects } from '../../../instruments/switches.ts';
import { shapingControllers } from '../../../playback/controller-ranges.ts';
import { controllers } from '../../../terms/controllers.ts';

const known = new WeakMap<Program, readonly number[]>();

/**
 * Controllers that shape the sound of a program and do nothing else, ascending: to keep one within a
 * limit moves no pedal, no switch and no tuning.
 */
export const clampableControllers = (program: Program): readonly number[] => {
  let found = known.get(program);
  if (found === undefined) {
    const others = new Set<number>(Object.values(controllers));
    for (const { sustain, sostenuto } of program.holds.flatMap(({ pedals }) => pedals)) {
      for (const pedal of [sustain, sostenuto]) if (pedal !== null) others.add(pedal.controller);
    }
    for (const signal of program.signals) {
      if (signal.kind === 'controller' && selects(signal)) others.add(signal.number);
    }
    found = shapingControllers(program).filter((number) => !others.has(number));
    known.set(program, found);
  }
  return found;
};
