import type { Layer } from '../instrument.ts';
import type { ZoneDraft } from './zone-draft.ts';

/**
 * The layers of one articulation: zones with the same velocities and controllers, in the order in
 * which they appear.
 *
 * @param zones with their numbers in the instrument, ascending
 */
export const layersOf = (
  zones: Iterable<readonly [number: number, zone: ZoneDraft]>,
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
