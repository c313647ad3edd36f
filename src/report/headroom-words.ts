import type { Headroom } from '../template/template.ts';
import { plural } from './format.ts';

/** Headroom whose velocity and controllers are alike, in words. @example '2 semitones and 16 steps of velocity and controllers' */
export const headroomWords = ({ keys, velocity }: Headroom): string => {
  const parts = [
    ...(keys > 0 ? [plural(keys, 'semitone')] : []),
    ...(velocity > 0 ? [`${plural(velocity, 'step')} of velocity and controllers`] : []),
  ];
  return parts.length === 0 ? 'no headroom' : parts.join(' and ');
};

/** As it is written on the command line. @example '--headroom keys=2,velocity=16,controller=16' */
export const headroomFlag = ({ keys, velocity, controller }: Headroom): string => {
  const parts = [
    ...(keys > 0 ? [`keys=${String(keys)}`] : []),
    ...(velocity > 0 ? [`velocity=${String(velocity)}`] : []),
    ...(controller > 0 ? [`controller=${String(controller)}`] : []),
  ];
  return `--headroom ${parts.join(',')}`;
};
