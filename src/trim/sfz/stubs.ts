import type { Region, SfzStructure } from '../../instruments/sfz/structure/regions.ts';
import type { SfzDocument } from '../../instruments/sfz/text/document.ts';
import type { Fates } from './fates.ts';
import { lostControllers } from './lost-controllers.ts';
import { lostDefaults } from './lost-defaults.ts';
import { lostSwitches } from './lost-switches.ts';
import { controlFor, defaultsIn } from './offsets.ts';
import { silence } from './silences.ts';
import type { NewHeader } from './stub-list.ts';

/** Headers at the end of the root file, none when nothing is lost. */
export interface Stubs {
  readonly headers: readonly NewHeader[];
  /** How many of them are regions. */
  readonly regions: number;
}

/**
 * Silent regions that no note starts, in place of what other regions take their bearings from: keys
 * that switch, the switch that holds at first, and controllers that mean volume and pan to a player as
 * long as no region uses them.
 */
export const stubsFor = (document: SfzDocument, { regions }: SfzStructure, fates: Fates): Stubs => {
  if (fates.gone.length === 0) return { headers: [], regions: 0 };
  const at = (numbers: readonly number[]): readonly Region[] =>
    numbers.map((number) => regions[number]!);
  const [kept, gone] = [at(fates.kept), at(fates.gone)];
  const { defaults, end } = defaultsIn(document);
  const stubs = [
    ...lostSwitches(kept, gone, document.files[0]!.encoding),
    ...lostDefaults(defaults, fates.ofHeader),
    ...lostControllers(kept, gone),
  ];
  if (stubs.length === 0) return { headers: [], regions: 0 };
  const headers: NewHeader[] = [{ name: 'global', opcodes: [] }];
  let now = end;
  for (const { opcodes, offsets, label } of stubs) {
    if (offsets !== null) {
      headers.push(...controlFor(now, offsets));
      now = offsets;
    }
    // A label takes all up to the end of its line.
    const last: NewHeader['opcodes'] = label === undefined ? [] : [['sw_label', label]];
    headers.push({ name: 'region', opcodes: [...opcodes, ['hikey', '-1'], silence, ...last] });
  }
  return { headers, regions: stubs.length };
};
