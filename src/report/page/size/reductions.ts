import { ofOneState, tellAlike } from '../../../overview/joined-cells.ts';
import type { Overview, Reduction } from '../../../overview/overview.ts';
import { eachInstrument } from './each-instrument.ts';
import { byOctave, layersAsOne, withJoined, withoutMap } from './fewer-cells.ts';
import { dynamicsInPart, keysAround, playedKeysAround } from './fewer-keys.ts';
import { fewerMisses } from './fewer-misses.ts';
import { withSteps } from './fewer-steps.ts';
import { withWitnesses } from './fewer-witnesses.ts';
import { shorterTexts } from './shorter-texts.ts';

/** Makes an overview smaller by telling less. */
type Reduce = (overview: Overview) => Overview;

/**
 * What is given up where a page would grow too large, the least missed first; each on top of those before
 * it. Figures are never given up.
 */
export const reductions: readonly (readonly [Reduction, Reduce])[] = [
  ['long-names', shorterTexts],
  ['one-witness', (overview) => withWitnesses(overview, 1)],
  ['played-keys', (overview) => eachInstrument(overview, playedKeysAround)],
  ['cells-alike', (overview) => withJoined(overview, tellAlike)],
  ['no-witness', (overview) => withWitnesses(overview, 0)],
  ['cells-of-a-state', (overview) => withJoined(overview, ofOneState)],
  ['misses', fewerMisses],
  ['steps', (overview) => withSteps(overview, 1200)],
  ['dynamics', (overview) => eachInstrument(overview, dynamicsInPart)],
  ['octaves', byOctave],
  ['few-steps', (overview) => withSteps(overview, 300)],
  ['layers', layersAsOne],
  ['keys', (overview) => eachInstrument(overview, keysAround)],
  ['maps', (overview) => eachInstrument(overview, withoutMap)],
];
