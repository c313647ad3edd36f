import type { Instrument } from '../../instruments/instrument.ts';
import { fadingSignals } from '../../playback/fading-signals.ts';
import { programFor } from '../../playback/play-cue.ts';
import type { CopyUsage, ZoneUsage } from '../../playback/zone-usage.ts';
import { fault, within, type Fault } from './checks.ts';

/**
 * Usage speaks of what the instruments and the rules have: articulations, signals, holds. With equal
 * digests it does, unless it was changed by hand.
 *
 * @param instruments by id: all that the usage names
 * @param rules how many the template has
 */
export const fitFault = (
  usage: ZoneUsage,
  instruments: ReadonlyMap<string, Instrument>,
  rules: number,
): Fault | null => {
  for (const [key, { routing }] of Object.entries(usage.sources)) {
    const named = Object.values(routing).flatMap(({ deciding, possible, beaten, unresolved }) => [
      ...[...deciding, ...possible, ...unresolved.map(({ rule }) => rule)],
      ...beaten.flatMap(({ rule, by }) => [rule, by]),
    ]);
    if (named.some((rule) => rule >= rules)) return fault('reference', 'sources', key, 'routing');
  }
  for (const [key, { copies }] of Object.entries(usage.files)) {
    for (const [i, copy] of copies.entries()) {
      const found = copyFault(copy, instruments.get(copy.instrument)!);
      if (found !== null) return within(within(within(within(found, i), 'copies'), key), 'files');
    }
  }
  return null;
};

const copyFault = (copy: CopyUsage, instrument: Instrument): Fault | null => {
  const { articulation, states, lives, chosen, classes } = copy;
  const isThere =
    articulation === null || instrument.articulations.some(({ name }) => name === articulation);
  if (!isThere) return fault('reference', 'articulation');
  const program = programFor(instrument, articulation);
  const signals = program.signals.length;
  const state = states.findIndex((one) => one.length !== signals);
  if (state >= 0) return fault('reference', 'states', state);
  const fading = fadingSignals(program).length;
  const life = lives.findIndex((moments) =>
    moments.some(({ ranges, hold }) => ranges.length !== fading || hold >= program.holds.length),
  );
  if (life >= 0) return fault('reference', 'lives', life);
  const choice = chosen.findIndex(({ signal }) => signal >= signals);
  if (choice >= 0) return fault('reference', 'chosen', choice);
  const wrong = classes.findIndex(
    ({ signal, hold, event }) =>
      signal >= signals || hold >= program.holds.length || (event === 'change' && signal < 0),
  );
  return wrong < 0 ? null : fault('reference', 'classes', wrong);
};
