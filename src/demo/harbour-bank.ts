import { Dice, seedOf } from './dice.ts';
import {
  attenuation,
  cutoff,
  exclusiveClass,
  keyRange,
  pan,
  release,
  tremolo,
  velocityRange,
} from './generators.ts';
import { drums, metals, roomDrums, type Stroke } from './harbour-kits.ts';
import { recipes, type Layer, type Recipe } from './harbour-sounds.ts';
import { strike } from './hits.ts';
import type {
  Bank,
  BankInstrument,
  BankPreset,
  BankSample,
  BankZone,
  Generator,
} from './soundfont-bank.ts';
import { rate, record } from './tones.ts';

/** The invented bank of the demo: every sample computed, none recorded. */
export const harbourBank = (): Bank => {
  const samples: BankSample[] = [];
  const instruments = [
    ...recipes.map((recipe) => pitched(recipe, samples)),
    kit('Kit Drums', drums, samples),
    kit('Kit Drums Room', roomDrums, samples),
    kit('Kit Metal', metals, samples),
  ];
  return {
    name: 'Saltmere Harbour',
    engine: 'invented demo',
    comment:
      'Invented for the keepset demo. Every sample is computed by rule; no recording is in it.',
    samples,
    instruments,
    presets: presets(instruments.map(({ name }) => name)),
  };
};

/** Keys above and below a sample that it also covers: samples stand three semitones apart. */
const reach = 1;

const pitched = (recipe: Recipe, samples: BankSample[]): BankInstrument => {
  const zones: BankZone[] = [{ generators: recipe.shared, modulators: recipe.modulators ?? [] }];
  const [lowest, highest] = recipe.keys;
  recipe.layers.forEach((layer, index) => {
    const softest = index === 0 ? 0 : recipe.layers[index - 1]!.top + 1;
    for (let lo = lowest; lo <= highest; lo += 2 * reach + 1) {
      const ranges = [
        keyRange(lo, Math.min(lo + 2 * reach, highest)),
        velocityRange(softest, layer.top),
      ];
      zones.push(...sampled(recipe, layer, Math.min(lo + reach, highest), ranges, samples));
    }
  });
  return { name: recipe.name, zones };
};

/** One zone with a mono sample, or a left and a right zone with the two halves of a pair. */
const sampled = (
  recipe: Recipe,
  layer: Layer,
  key: number,
  ranges: readonly Generator[],
  samples: BankSample[],
): readonly BankZone[] => {
  const first = samples.length;
  const sides = recipe.stereo ? (['left', 'right'] as const) : (['mono'] as const);
  return sides.map((side, index) => {
    const name = `${recipe.short} ${keyName(key)} ${layer.mark}${sideMarks[side]}`;
    const recording = record(key, { ...recipe.tone, bright: layer.bright }, new Dice(seedOf(name)));
    const partner = side === 'mono' ? 0 : first + 1 - index;
    samples.push({ name, rate, key, ...recording, side, partner });
    const place = side === 'mono' ? [] : [pan(side === 'left' ? -500 : 500)];
    return { generators: [...ranges, ...place], target: first + index };
  });
};

const sideMarks = { mono: '', left: ' L', right: ' R' };

/** C4 is key 60 in this bank. */
const keyName = (key: number): string => {
  const letters = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];
  return letters[key % 12]! + String(Math.floor(key / 12) - 1);
};

const kit = (name: string, strokes: readonly Stroke[], samples: BankSample[]): BankInstrument => {
  const zones: BankZone[] = [{ generators: [release(0.5), attenuation(30)] }];
  for (const stroke of strokes) {
    stroke.tops.forEach((top, index) => {
      const sampleName = `${stroke.name} v${String(index + 1)}`;
      const key = stroke.keys[0]!;
      const force = (index + 1) / stroke.tops.length;
      const recording = strike(stroke.hit, force, new Dice(seedOf(sampleName)));
      const target = samples.length;
      samples.push({ name: sampleName, rate, key, ...recording, side: 'mono', partner: 0 });
      const velocities = velocityRange(index === 0 ? 0 : stroke.tops[index - 1]! + 1, top);
      const choke = stroke.choke === 0 ? [] : [exclusiveClass(stroke.choke)];
      for (const at of stroke.keys) {
        zones.push({ generators: [keyRange(at, at), velocities, ...choke], target });
      }
    });
  }
  return { name, zones };
};

const presets = (names: readonly string[]): readonly BankPreset[] => {
  const zone = (instrument: string, ...generators: readonly Generator[]): BankZone => ({
    generators,
    target: names.indexOf(instrument),
  });
  const preset = (
    bank: number,
    program: number,
    name: string,
    ...zones: readonly BankZone[]
  ): BankPreset => ({ name, bank, program, zones });
  const basses = zone('Cb Arco', keyRange(28, 43), attenuation(40));
  return [
    preset(0, 0, 'Piano', zone('Piano')),
    preset(0, 8, 'Celesta', zone('Celesta')),
    preset(0, 21, 'Squeezebox', zone('Squeezebox')),
    preset(0, 43, 'Cb Arco', zone('Cb Arco')),
    preset(0, 44, 'Strings Trem', zone('Strings Sus', ...tremolo(60, 9)), basses),
    preset(0, 45, 'Strings Pizz', zone('Strings Pizz')),
    preset(0, 46, 'Harp', zone('Harp')),
    preset(0, 47, 'Timpani', zone('Timpani')),
    preset(0, 48, 'Strings Sus', zone('Strings Sus'), basses),
    preset(0, 49, 'Strings Stac', zone('Strings Stac')),
    // At preset level an amount is added: a softer top than the instrument's own.
    preset(0, 52, 'Choir Ah Pad', zone('Choir Ah', cutoff(-600))),
    preset(0, 60, 'Horns a4', zone('Horns a4')),
    preset(0, 68, 'Oboe', zone('Oboe')),
    preset(0, 73, 'Flute', zone('Flute')),
    preset(1, 48, 'Strings Sus Sord', zone('Strings Sus Sord')),
    preset(
      128,
      0,
      'Kit Stage',
      { generators: [attenuation(10)] },
      zone('Kit Drums'),
      zone('Kit Metal'),
    ),
    preset(128, 8, 'Kit Room', zone('Kit Drums Room'), zone('Kit Metal')),
  ];
};
