import { drumBank, patchValue, type Program, type Signal } from '../../instruments/program.ts';
import { powerOnValue } from '../../terms/controllers.ts';
import { CopyState } from './copy-state.ts';

/** A copy before any message. */
export const powerOn = ({ signals, scope: shared, holds }: Program): CopyState => {
  const scopes = shared === 'channel' ? 16 : 1;
  const values = new Float64Array(scopes * signals.length);
  const all = new Uint8Array(scopes * 128);
  for (let scope = 0; scope < scopes; scope++) {
    signals.forEach((signal, i) => {
      values[scope * signals.length + i] = initialOf(signal, scope);
    });
    for (let number = 0; number < 128; number++) all[scope * 128 + number] = powerOnValue(number);
  }
  for (const { pedals } of holds) {
    const sustain = pedals[0]?.sustain;
    if (sustain === undefined || sustain === null) continue;
    for (let scope = 0; scope < scopes; scope++) {
      all[scope * 128 + sustain.controller] = sustain.initial;
    }
  }
  const banks = new Uint8Array(16);
  banks[9] = drumBank;
  return new CopyState(values, new Uint8Array(values.length), all, banks);
};

const initialOf = (signal: Signal, scope: number): number => {
  switch (signal.kind) {
    case 'controller':
      return signal.initial ?? powerOnValue(signal.number);
    case 'switch':
      return signal.initial ?? -1;
    case 'previous-key':
    case 'previous-velocity':
      return -1;
    case 'patch':
      return patchValue(scope === 9 ? drumBank : 0, 0);
    default:
      return 0;
  }
};
