import { sampleName, type Limits, type Model, type ModelZone } from './model.ts';

/** Ways to write one and the same table. */
export interface TableStyle {
  readonly keyNames: boolean;
  readonly size: 'frames' | 'bytes';
}

const starts = { 'note-on': '', release: 'yes', 'note-off': 'note-off' } as const;

/** A zone table, a row for each zone, with key 60 as C4. */
export const writeTable = (model: Model, style: TableStyle): string => {
  const row = (zone: ModelZone, i: number): string => {
    const { keys, velocities, fades, sample } = zone;
    const articulation =
      zone.articulation === null ? null : model.articulations[zone.articulation]!;
    const { frames, rate } = model.samples[sample]!;
    const cells = [
      `row ${String(i)}`,
      articulation?.name ?? '',
      articulation === null ? '' : keyText(articulation.switchKey, style),
      keys.map((key) => keyText(key, style)).join('-'),
      range(velocities),
      fades.map(({ controller, limits }) => `${String(controller)}:${range(limits)}`).join(' & '),
      starts[zone.starts],
      sampleName(sample),
      style.size === 'frames' ? frames : frames * 2,
      rate,
      16,
      1,
    ];
    return cells.join(',');
  };
  const heading = `key,articulation,switch,keys,velocities,controllers,release,sample,${style.size},rate,bits,channels`;
  return [heading, ...model.zones.map(row)].join('\n');
};

const range = (limits: Limits): string => limits.join('-');

const names = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];

const keyText = (key: number, { keyNames }: TableStyle): string =>
  keyNames ? `${names[key % 12]!}${String(Math.floor(key / 12) - 1)}` : String(key);
