import { sampleName, type Limits, type Model, type ModelZone } from './model.ts';

/** Ways to write one and the same outline. */
export interface ModelOutlineStyle {
  /** The octave of key 60. */
  readonly middleC: 3 | 4 | 5;
  /** One recorded key for the whole range, else only the range. */
  readonly sampled: boolean;
  /** Velocities as a condition, where there is no release that would have to obey it. */
  readonly conditions: boolean;
}

export interface WrittenOutline {
  readonly text: string;
  /** By name in the outline, the sample of the model. */
  readonly samples: ReadonlyMap<string, string>;
}

/**
 * An outline with the zones of a model that {@link outlineable} has left: an articulation for each zone
 * that is struck, with the release that follows it.
 */
export const writeOutline = (model: Model, style: ModelOutlineStyle): WrittenOutline => {
  const samples = new Map<string, string>();
  const lines = [
    `middle-c: C${String(style.middleC)}`,
    'bits: 16',
    'channels: 1',
    'articulations:',
  ];
  for (const [i, zone] of model.zones.entries()) {
    if (zone.starts !== 'note-on') continue;
    const next = model.zones[i + 1];
    const release = next === undefined || next.starts === 'note-on' ? null : next;
    const name = `part ${String(i)}`;
    const [lo, hi] = zone.keys;
    const isCondition = style.conditions && release === null;
    const place =
      style.sampled || lo === hi ? nameAt(lo, 4) : zone.keys.map((key) => nameAt(key, 4)).join('-');
    const key = (number: number): string => nameAt(number, style.middleC);
    const layers = layersText(zone, isCondition);
    const ofZone = sizeOf(model, zone);
    lines.push(
      `  ${name}:`,
      `    switch: ${zone.articulation === null ? 'none' : key(model.articulations[zone.articulation]!.switchKey)}`,
      `    keys: ${lo === hi ? key(lo) : `${key(lo)}-${key(hi)}`}`,
      ...(style.sampled ? [`    sampled: ${key(lo)}`] : []),
      ...(layers.text === null ? [] : [`    layers: ${layers.text}`]),
      ...(isCondition ? [`    when: { velocity: ${zone.velocities.join('-')} }`] : []),
      `    rate: ${String(ofZone.rate)}`,
      `    seconds: ${ofZone.seconds}`,
    );
    samples.set([name, place, ...layers.names].join(' '), sampleName(zone.sample));
    if (release === null) continue;
    const own = layersText(release, false);
    const given = [
      `at: ${release.starts}`,
      `seconds: ${sizeOf(model, release, ofZone.rate).seconds}`,
      ...(own.text === null ? [] : [`layers: ${own.text}`]),
    ];
    lines.push(`    releases: { ${given.join(', ')} }`);
    samples.set([name, place, ...own.names, 'release'].join(' '), sampleName(release.sample));
  }
  return { text: lines.join('\n'), samples };
};

/** @param alone without its velocities */
const layersText = (
  { velocities, fades }: ModelZone,
  alone: boolean,
): { readonly text: string | null; readonly names: readonly string[] } => {
  const isAll = velocities[0] === 1 && velocities[1] === 127;
  const axes: readonly (readonly [string, string, Limits])[] = [
    ...(alone || isAll ? [] : [['velocity', 'v', velocities] as const]),
    ...fades.map(({ controller, limits }) => {
      const name = `cc${String(controller)}`;
      return [name, `${name} `, limits] as const;
    }),
  ];
  if (axes.length === 0) return { text: null, names: [] };
  return {
    text: `{ ${axes.map(([axis, , limits]) => `${axis}: [${limits.join('-')}]`).join(', ')} }`,
    names: axes.map(([, short, limits]) => short + [...new Set(limits)].join('-')),
  };
};

/** A length that comes to the frames of the sample when it is rounded up. */
const sizeOf = (
  { samples }: Model,
  { sample }: ModelZone,
  rate = samples[sample]!.rate,
): { readonly rate: number; readonly seconds: string } => ({
  rate,
  seconds: ((samples[sample]!.frames - 0.5) / rate).toFixed(7),
});

const names = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];

const nameAt = (key: number, middleC: number): string =>
  `${names[key % 12]!}${String(Math.floor(key / 12) - 5 + middleC)}`;
