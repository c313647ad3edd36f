import type { Plan } from '../../plan.ts';
import { articulationsAgree } from './articulations.ts';
import { copiesAgree } from './copies.ts';
import { cuesAgree } from './cues.ts';
import { curveAgrees } from './curve.ts';
import { Disagreements } from './disagreements.ts';
import { doubtsAgree } from './doubts.ts';
import { instrumentAgrees } from './instruments.ts';
import { keptZonesAgree } from './kept-zones.ts';
import { machinesAgree } from './machines.ts';
import { rareAgrees } from './rare.ts';
import { settingsAgree } from './settings.ts';
import { totalAgrees } from './total.ts';

/**
 * Makes sure that a keep file was not changed in one place only: whatever can be worked out from the
 * rest of it has to be what it says.
 *
 * @param path as the user named it
 * @throws {InputError} `keep-file-disagrees`, once for each of the first that do not
 */
export const agreesWithItself = (plan: Plan, path: string): void => {
  const found = new Disagreements(path);
  const cues = cuesAgree(plan, found);
  const instruments = found.once(
    'instrument',
    plan.instruments.map(({ id }) => id),
  );
  settingsAgree(plan, instruments, found);
  const doubts = doubtsAgree(plan, found);
  for (const instrument of plan.instruments) {
    found.about(instrument.id);
    instrumentAgrees(instrument, plan.settings, found);
    copiesAgree(instrument, cues, found);
    articulationsAgree(instrument, found);
    keptZonesAgree(instrument, plan.settings, { cues, doubts }, found);
  }
  found.about(null);
  machinesAgree(plan, found);
  totalAgrees(plan, found);
  if (plan.rare !== null) rareAgrees(plan, plan.rare, cues, found);
  found.about(null);
  if (plan.headroomCurve !== null) curveAgrees(plan, plan.headroomCurve, cues, found);
  found.settle();
};
