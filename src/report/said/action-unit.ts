import type { OverviewAction, OverviewStep } from '../../overview/overview-steps.ts';
import type { Overview } from '../../overview/overview.ts';
import type { Piece } from '../phrase-cell.ts';
import { layerWords } from '../worklist-words.ts';
import { hasOnlyOne, stepUnit, type StepUnit } from './step-unit.ts';

/** Layers that are named; of more it is told how many there are. */
const mostLayers = 4;

/** What steps that are told as one unload. */
export interface ActionUnit extends StepUnit {
  /** Those of its steps that the overview lists. */
  readonly steps: readonly OverviewStep[];
  /** Names of the copies that they are about; none: all alike. */
  readonly copies: readonly string[];
  /** Some of it is of a size that nobody knows. */
  readonly isUnknown: boolean;
}

export const actionUnit = (overview: Overview, action: OverviewAction): ActionUnit => {
  const list = overview.worklist.find(({ id }) => id === overview.machines[action.machine]?.id);
  const numbers = new Set(action.numbers);
  const steps = list?.actions.filter(({ number }) => numbers.has(number)) ?? [];
  return {
    steps,
    copies: [...new Set(steps.flatMap(({ copy }) => (copy === null ? [] : [copy])))],
    isUnknown: steps.some(({ unknownSamples }) => unknownSamples > 0),
    ...unitOf(overview, action, steps),
  };
};

const unitOf = (
  overview: Overview,
  { numbers, instrument, articulations }: OverviewAction,
  steps: readonly OverviewStep[],
): StepUnit => {
  const own = overview.instruments[instrument];
  const isOnly = hasOnlyOne(overview, own?.id ?? '');
  const [first] = steps;
  if (first === undefined) return { phrase: namesOf(articulations), isPart: false };
  if (numbers.length === 1) return stepUnit(first, isOnly);
  const stays = own?.articulations.some(
    ({ name, zonesKept }) => articulations.includes(name) && zonesKept > 0,
  );
  // All of it goes: its layers are of no account.
  if (stays !== true) {
    const { unit, spareCopies } = first;
    return stepUnit({ ...first, spareCopies, keeps: null, unit: { ...unit, layer: null } }, isOnly);
  }
  const layers = [
    ...new Set(steps.map(({ unit }) => (unit.layer === null ? '' : layerWords(unit.layer)))),
  ].filter((words) => words !== '');
  const named = layers.length > mostLayers ? [`${String(layers.length)} layers`] : layers;
  const names = isOnly ? [] : namesOf(articulations);
  return layers.length === 0
    ? stepUnit(first, isOnly)
    : { phrase: [...names, named.join(', ')], isPart: false };
};

const namesOf = (names: readonly string[]): readonly Piece[] =>
  names.flatMap((name, i): readonly Piece[] => (i === 0 ? [{ name }] : ['and', { name }]));
