import type { Program, Start } from '../../program.ts';
import type { SfzStructure } from '../structure/regions.ts';
import type { SampleUse } from '../samples/sample-use.ts';
import { Chokes } from './chokes.ts';
import { isRelease } from './hold.ts';
import type { NamedRegion } from './named-region.ts';
import { Parts } from './parts.ts';
import { regionStarts } from './region-starts.ts';
import { ReleasedNotes } from './released-notes.ts';
import { switchOf, SwitchSignals, type SwitchOpcodes } from './switch-signals.ts';

/**
 * The program of an SFZ instrument: the starts of every region, by every reading.
 *
 * @param uses what each region plays
 * @param articulations by region, the number of its articulation
 */
export const compileSfz = (
  regions: readonly NamedRegion[],
  structure: SfzStructure,
  uses: readonly SampleUse[],
  articulations: readonly number[],
): Program => {
  const { defaults, curves } = structure;
  const parts = new Parts(structure);
  const switchesOf = (shifted: boolean): readonly SwitchOpcodes[] =>
    regions.flatMap(({ region, opcodes }) => switchOf(opcodes, region, shifted) ?? []);
  const around = {
    parts,
    curves,
    chokes: new Chokes(regions.map(({ opcodes }) => opcodes)),
    released: new ReleasedNotes(regions),
    switches: {
      shifted: new SwitchSignals(switchesOf(true), defaults),
      unshifted: new SwitchSignals(switchesOf(false), defaults, false),
      isOffset: regions.some(({ region }) => region.control.noteOffset !== 0),
    },
  };
  const starts: Start[] = [];
  regions.forEach(({ region, opcodes }, i) => {
    const { kind, header } = uses[i]!;
    const plays = kind === 'silence' || kind === 'none' ? 'silence' : 'sound';
    const articulation = articulations[i]!;
    starts.push(...regionStarts({ region, opcodes, plays, header, articulation }, around));
  });
  return {
    scope: 'copy',
    retriggers: true,
    looseNoteOffs: true,
    ...(releasesCut(around.chokes, regions) ? { releasesCut: true } : {}),
    signals: parts.signals,
    gates: parts.gates,
    holds: parts.holds,
    starts,
    zones: regions.length,
    articulations: articulations.reduce((most, one) => Math.max(most, one + 1), 1),
  };
};

/** Some region that a release starts stops others. */
const releasesCut = (chokes: Chokes, regions: readonly NamedRegion[]): boolean =>
  chokes.any && regions.some(({ opcodes }) => isRelease(opcodes) && chokes.names(opcodes));
