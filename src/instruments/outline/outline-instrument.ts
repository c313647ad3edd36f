import { fold } from '../../notation/fold.ts';
import { inputError } from '../../terms/errors.ts';
import type { Finding } from '../../terms/finding.ts';
import { fileName } from '../file-name.ts';
import type { Articulation, Instrument, Sample, Zone } from '../instrument.ts';
import { layersOf, type Layered } from '../layers.ts';
import type { FileReading } from '../reading.ts';
import { switchLabel } from '../switch-label.ts';
import { free } from '../zone-name.ts';
import { compileOutline } from './compile-outline.ts';
import type { Measured, Outline } from './outline.ts';
import { remarksOn } from './outline-remarks.ts';
import {
  expandArticulation,
  zoneCount,
  type OutlineZone,
  type PlacedArticulation,
} from './outline-zone.ts';
import { placeArticulations } from './place-articulations.ts';
import { startCount } from './start-count.ts';
import { zoneSizes } from './zone-sizes.ts';

/** As many as the largest libraries have; more is a slip in the outline. */
const mostZones = 200_000;

/** So that a start for each key of each transition does not take all memory there is. */
const mostStarts = 1_000_000;

/**
 * An instrument from an outline (design, section 8): what its manual says, each zone with a name and a
 * sample of its own. What the outline leaves out is coarse, or in doubt.
 *
 * @param sha256 of the file it was read from
 * @param findings what was found while reading it; they come first
 * @throws {InputError} `outline-too-many-zones`, `outline-too-many-starts`
 */
export const outlineInstrument = (
  outline: Outline,
  sha256: string,
  findings: readonly Finding[],
): Instrument => {
  const { path } = outline;
  const placed = placeArticulations(outline);
  checkSize(path, placed);
  const zones = placed.flatMap(expandArticulation);
  const names = nameZones(zones);
  const sizes = zoneSizes(outline, zones);
  return {
    id: fileName(path),
    source: path,
    sha256,
    playedAs: 'single',
    zones: zones.map(({ microphone }, id): Zone => ({
      id,
      samples: [id],
      group: 0,
      key: names[id]!,
      microphone,
    })),
    samples: sizes.map((size, i): Sample => ({ name: names[i]!, ...size, partner: null })),
    articulations: articulationsOf(outline, zones),
    program: compileOutline(outline, placed, zones),
    presetZones: [],
    readings: readingsOf(outline),
    findings: [...findings, ...remarksOn(outline, zones, sizes)],
  };
};

const checkSize = (path: string, placed: readonly PlacedArticulation[]): void => {
  const zones = placed.reduce((sum, one) => sum + zoneCount(one), 0);
  if (zones > mostZones) {
    throw inputError('outline-too-many-zones', path, { zones, limit: mostZones });
  }
  const starts = placed.reduce((sum, one) => sum + startCount(one), 0);
  if (starts > mostStarts) throw inputError('outline-too-many-starts', path, { limit: mostStarts });
};

const nameZones = (zones: readonly OutlineZone[]): readonly string[] => {
  const taken = new Set<string>();
  const repeats = new Map<string, number>();
  return zones.map(({ name }) => free(name, taken, repeats));
};

const anyVelocity = [1, 127] as const;

const articulationsOf = (
  { articulations }: Outline,
  zones: readonly OutlineZone[],
): readonly Articulation[] => {
  const layered = articulations.map((): [number, Layered][] => []);
  zones.forEach(({ articulation, layer: { velocities, controllers } }, number) => {
    layered[articulation]!.push([number, { velocities: velocities ?? anyVelocity, controllers }]);
  });
  return articulations.map(({ name, choice }, i) => ({
    name,
    switch: choice.kind === 'switch' ? switchLabel(choice.test) : null,
    ...(choice.kind === 'player' ? { picked: true as const } : {}),
    layers: layersOf(layered[i]!),
  }));
};

/** All that the outline gives, as if the template gave it. */
const readingsOf = ({ path, measured, articulations }: Outline): readonly FileReading[] => {
  const reading = (of: string, one: Measured | null): readonly FileReading[] =>
    one === null ? [] : [{ of, bytes: one.bytes, at: one.at, file: path }];
  return [
    ...reading('empty', measured.empty),
    ...reading('full', measured.full),
    // In readings these two words mean no zone and all zones.
    ...articulations
      .filter(({ name }) => !['empty', 'full'].includes(fold(name)))
      .flatMap((one) => reading(one.name, one.measured)),
  ];
};
