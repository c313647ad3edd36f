import type { Model, ModelSample, ModelZone } from './model.ts';

/**
 * The part of a model that an outline can say. There a release belongs to something that is struck, so
 * it takes the keys and the switch of the zone before it, and any velocity unless it has its own; two
 * in a row have nothing to belong to, and neither has one at the beginning. A recording is nobody
 * else's.
 */
export const outlineable = (model: Model): Model => {
  const zones: ModelZone[] = [];
  const samples: ModelSample[] = [];
  for (const zone of model.zones) {
    const before = zones.at(-1);
    const isRelease = zone.starts !== 'note-on';
    if (isRelease && before?.starts !== 'note-on') continue;
    const owner = isRelease ? before! : zone;
    const { frames, rate } = model.samples[zone.sample]!;
    // One rate for what belongs together.
    samples.push({ frames, rate: isRelease ? samples.at(-1)!.rate : rate });
    zones.push({
      ...zone,
      keys: owner.keys,
      articulation: owner.articulation,
      sample: zones.length,
    });
  }
  // Every switch still has something to choose, or there are none.
  const used = new Set(zones.map(({ articulation }) => articulation));
  const isWhole = model.articulations.every((_, i) => used.has(i));
  return isWhole && zones.length > 0 ? { ...model, zones, samples } : { ...model, zones: [] };
};
