import {
  joinedCells,
  layersTogether,
  octaveCells,
  ofOneState,
  tellAlike,
  type Alike,
} from './joined-cells.ts';
import type {
  CellWitness,
  Overview,
  OverviewInstrument,
  OverviewRow,
  PlayableStretch,
  Reduction,
} from './overview.ts';
import { ReasonLists } from './reason-lists.ts';
import { toRanges, type Range } from '../terms/range.ts';
import { withSteps } from './fewer-steps.ts';

/** Makes an overview smaller by telling less. */
type Reduce = (overview: Overview) => Overview;

/** Misses that data hold where there is little room. */
const fewMisses = 60;

/** Pieces in which keys are still told one by one. */
const manyPieces = 12;

/** Something of it may be played, which is all that is said. */
const inPart: PlayableStretch['dynamics'] = [{ by: 'velocity', safe: [], all: [1, 127] }];

/** Stretches of keys with dynamics of their own that are still told one by one. */
const fewStretches = 3;

/**
 * What is given up where a page would grow too large, the least missed first; each on top of those before
 * it. Figures are never given up.
 */
export const reductions: readonly (readonly [Reduction, Reduce])[] = [
  ['one-witness', (overview) => withWitnesses(overview, 1)],
  ['played-keys', (overview) => eachInstrument(overview, playedKeysAround)],
  ['cells-alike', (overview) => withJoined(overview, tellAlike)],
  ['no-witness', (overview) => withWitnesses(overview, 0)],
  ['cells-of-a-state', (overview) => withJoined(overview, ofOneState)],
  ['misses', fewerMisses],
  ['steps', (overview) => withSteps(overview, 1200)],
  ['dynamics', (overview) => eachInstrument(overview, dynamicsInPart)],
  ['octaves', (overview) => eachRow(overview, octaveCells)],
  ['few-steps', (overview) => withSteps(overview, 300)],
  ['layers', layersAsOne],
  ['keys', (overview) => eachInstrument(overview, keysAround)],
  ['maps', (overview) => eachInstrument(overview, withoutMap)],
];

const eachInstrument = (
  overview: Overview,
  change: (one: OverviewInstrument) => OverviewInstrument,
): Overview => ({ ...overview, instruments: overview.instruments.map(change) });

const eachRow = (
  overview: Overview,
  change: (cells: OverviewRow['cells'], reasons: ReasonLists) => OverviewRow['cells'],
): Overview => {
  const reasons = new ReasonLists(overview.reasons);
  const changed = eachInstrument(overview, (one) => ({
    ...one,
    articulations: one.articulations.map((articulation) => ({
      ...articulation,
      rows: articulation.rows.map((row) => ({ ...row, cells: change(row.cells, reasons) })),
    })),
  }));
  return { ...changed, reasons: reasons.all };
};

const withJoined = (overview: Overview, isAlike: Alike): Overview =>
  eachRow(overview, (cells, reasons) => joinedCells(cells, isAlike, reasons));

/** Each cell with so many witnesses at the most; of joined ones those of the first. */
function withWitnesses(overview: Overview, most: number): Overview {
  const changed = eachInstrument(overview, (one) => {
    const witnesses: CellWitness[] = [];
    const places = new Map<number, number>();
    const placeOf = (first: number): number => {
      const known = places.get(first);
      if (known !== undefined) return known;
      const place = witnesses.push(...one.witnesses.slice(first, first + most)) - most;
      places.set(first, place);
      return place;
    };
    const articulations = one.articulations.map((articulation) => ({
      ...articulation,
      rows: articulation.rows.map((row) => ({
        ...row,
        cells: row.cells.map(([lo, hi, state, zones, kept, reasons, first, count]) => {
          const left = Math.min(count, most);
          const place = left === 0 ? 0 : placeOf(first);
          return [lo, hi, state, zones, kept, reasons, place, left] as const;
        }),
      })),
    }));
    return { ...one, articulations, witnesses };
  });
  return {
    ...changed,
    tracks: most === 0 ? [] : overview.tracks,
    witnessesPerCell: Math.min(most, overview.witnessesPerCell),
  };
}

/** The keys that were played, from the lowest to the highest. */
function playedKeysAround(one: OverviewInstrument): OverviewInstrument {
  return {
    ...one,
    articulations: one.articulations.map((articulation) => {
      const { keysPlayed } = articulation;
      const [first, last] = [keysPlayed[0], keysPlayed.at(-1)];
      const around =
        first === undefined || last === undefined ? [] : [[first[0], last[1]] as const];
      return { ...articulation, keysPlayed: around };
    }),
  };
}

/** Where dynamics differ in many ways from key to key, that they do is all that is told. */
function dynamicsInPart(one: OverviewInstrument): OverviewInstrument {
  return {
    ...one,
    articulations: one.articulations.map((articulation) => {
      const { playable } = articulation;
      if (playable.stretches.length <= fewStretches) return articulation;
      const keys = playable.stretches.flatMap((stretch) => stretch.keys);
      const stretch: PlayableStretch = {
        keys: joinedRanges(keys),
        dynamics: inPart,
      };
      return { ...articulation, playable: { ...playable, stretches: [stretch] } };
    }),
  };
}

/** Keys that lie in many pieces are told from the lowest to the highest, and nothing is promised of them. */
function keysAround(one: OverviewInstrument): OverviewInstrument {
  return {
    ...one,
    articulations: one.articulations.map((articulation) => {
      const { playable } = articulation;
      const sounding = playable.stretches.flatMap(({ keys }) => keys);
      if (playable.all.length + sounding.length <= manyPieces) return articulation;
      const stretches =
        sounding.length === 0 ? [] : [{ keys: [around(sounding)], dynamics: inPart }];
      return { ...articulation, playable: { ...playable, all: [around(playable.all)], stretches } };
    }),
  };
}

const around = (ranges: readonly Range[]): Range => [
  Math.min(...ranges.map(([lo]) => lo)),
  Math.max(...ranges.map(([, hi]) => hi)),
];

/** As few ranges as it takes. */
function joinedRanges(ranges: readonly Range[]): readonly Range[] {
  const keys = ranges.flatMap(([lo, hi]) => Array.from({ length: hi - lo + 1 }, (_, i) => lo + i));
  return toRanges(new Set(keys));
}

function layersAsOne(overview: Overview): Overview {
  const reasons = new ReasonLists(overview.reasons);
  const changed = eachInstrument(overview, (one) => ({
    ...one,
    articulations: one.articulations.map((articulation) => {
      const { rows } = articulation;
      const [first] = rows;
      if (first === undefined || rows.length === 1) return articulation;
      const row: OverviewRow = {
        velocity: [
          Math.min(...rows.map(({ velocity }) => velocity[0])),
          Math.max(...rows.map(({ velocity }) => velocity[1])),
        ],
        controllers: [],
        event: first.event,
        zones: rows.reduce((sum, { zones }) => sum + zones, 0),
        zonesKept: rows.reduce((sum, { zonesKept }) => sum + zonesKept, 0),
        cells: layersTogether(
          rows.map(({ cells }) => cells),
          reasons,
        ),
      };
      return { ...articulation, rows: [row] };
    }),
  }));
  return { ...changed, reasons: reasons.all };
}

function withoutMap(one: OverviewInstrument): OverviewInstrument {
  return {
    ...one,
    articulations: one.articulations.map((articulation) => ({ ...articulation, rows: [] })),
    witnesses: [],
  };
}

function fewerMisses(overview: Overview): Overview {
  const { proof } = overview;
  const misses = proof.misses.slice(0, fewMisses);
  const unlisted = proof.unlisted + proof.misses.length - misses.length;
  return { ...overview, proof: { ...proof, misses, unlisted } };
}
