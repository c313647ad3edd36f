import { plain } from '../../terms/doubt.ts';
import type { Range } from '../../terms/range.ts';
import type { Articulation, Layer } from '../instrument.ts';
import type { Start } from '../program.ts';
import { presetLabel, type PresetNumber } from './presets.ts';

/**
 * Presets as articulations: their layers are the distinct velocity ranges of what starts by the plain
 * reading, soft ones first.
 *
 * @param chosen false when the preset is played by itself, so that no message selects it
 */
export const bankArticulations = (
  presets: readonly (PresetNumber & { readonly name: string })[],
  starts: readonly Start[],
  chosen: boolean,
): readonly Articulation[] => {
  const zonesByVelocity = presets.map(() => new Map<Range, Set<number>>());
  for (const { articulation, velocities, zone, doubt } of starts) {
    if (doubt !== plain) continue;
    const layers = zonesByVelocity[articulation]!;
    const zones = layers.get(velocities);
    if (zones === undefined) layers.set(velocities, new Set([zone]));
    else zones.add(zone);
  }
  return presets.map((preset, i) => ({
    name: presetLabel(preset),
    switch: chosen ? `bank ${String(preset.bank)} program ${String(preset.program)}` : null,
    layers: [...zonesByVelocity[i]!].map(layerOf).sort(softFirst),
  }));
};

const layerOf = ([velocity, zones]: readonly [Range, ReadonlySet<number>]): Layer => ({
  velocity,
  controllers: [],
  zones: [...zones].sort((a, b) => a - b),
});

const softFirst = (a: Layer, b: Layer): number =>
  a.velocity[0] - b.velocity[0] || a.velocity[1] - b.velocity[1];
