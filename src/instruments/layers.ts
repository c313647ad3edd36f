import type { Layer } from './instrument.ts';

/** What a zone's layer goes by. */
export type Layered = Pick<Layer, 'controllers'> & { readonly velocities: Layer['velocity'] };

/**
 * The layers of one articulation: zones with the same velocities and controllers, in the order in
 * which they appear.
 *
 * @param zones with their numbers in the instrument, ascending
 */
export const layersOf = (
  zones: Iterable<readonly [number: number, zone: Layered]>,
): readonly Layer[] => {
  const layers = new Map<string, Omit<Layer, 'zones'> & { readonly zones: number[] }>();
  for (const [number, { velocities, controllers }] of zones) {
    const text = JSON.stringify([velocities, controllers]);
    const layer = layers.get(text);
    if (layer === undefined) {
      layers.set(text, { velocity: velocities, controllers, zones: [number] });
    } else layer.zones.push(number);
  }
  return [...layers.values()];
};
