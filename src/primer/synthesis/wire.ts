import type { Transform } from '../../template/route.ts';

/**
 * What has to be written so that a route makes a given value of it (the inverse of a
 * {@link Transform}).
 */

/** The key to write, or null where none arrives as `key`. */
export const wireKey = ({ transpose }: Transform, key: number): number | null => {
  const written = key - transpose;
  return written < 0 || written > 127 ? null : written;
};

/** What a written velocity arrives as: rounded half up and kept to 1-127, as routing does it. */
export const arrivingVelocity = ({ velocity }: Transform, written: number): number =>
  velocity === 1
    ? written
    : Math.min(127, Math.max(1, Math.floor(Number((written * velocity).toPrecision(12)) + 0.5)));

/** A velocity to write that arrives as `velocity`, or null where none does. */
export const wireVelocity = (transform: Transform, velocity: number): number | null => {
  if (transform.velocity === 1) return velocity;
  for (let written = 1; written <= 127; written++) {
    if (arrivingVelocity(transform, written) === velocity) return written;
  }
  return null;
};

/** The controller to write, or null where none arrives as `number`. */
export const wireController = ({ controllers }: Transform, number: number): number | null => {
  if ((controllers.get(number) ?? number) === number) return number;
  for (const [from, to] of controllers) if (to === number) return from;
  return null;
};
