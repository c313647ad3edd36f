import { overviewActions, overviewLists } from './actions.ts';
import { placesOf } from './by-id.ts';
import { mostWitnesses } from './cell-witnesses.ts';
import { overviewCues } from './cues.ts';
import { doableSteps } from './doable-steps.ts';
import { overviewFindings } from './findings.ts';
import { overviewGroups } from './groups.ts';
import { doubtsAt, overviewInstrument } from './instruments.ts';
import { overviewMachines } from './machines.ts';
import { overviewMaps } from './maps.ts';
import { overviewMicrophones } from './microphones.ts';
import type { OverviewInput } from './overview-input.ts';
import type { Overview } from './overview.ts';
import { overviewPrinted } from './printed.ts';
import { overviewProof } from './proof.ts';
import { overviewRisks } from './risks.ts';
import { slottedInstruments } from '../trim/worklist/slots.ts';

/** A plan, its check, the memory of its reel and its worklist in one value. */
export const makeOverview = (input: OverviewInput): Overview => {
  const { plan, template, instruments: loaded, keep, title, middleC } = input;
  const { settings, total, doubts, together, doubtsAll, allowances, versions } = plan;
  const made = overviewMaps(plan, loaded);
  const slotted = slottedInstruments(plan, template, loaded);
  const doable = doableSteps(input, slotted);
  const machines = overviewMachines(input, doable);
  const machineOf = placesOf(plan.machines);
  const microphones = overviewMicrophones(slotted);
  const instruments = plan.instruments.map((own, i) =>
    overviewInstrument(
      own,
      loaded.get(own.id)!,
      machineOf(own.machine),
      settings.pins,
      made.maps[i]!,
      input.files,
      template,
      { microphones: microphones.get(own.id)!, otherNotes: input.otherNotes.get(own.id)! },
    ),
  );
  const findings = overviewFindings(input);
  return {
    schema: 'keepset/report@1',
    title,
    middleC,
    keep,
    template:
      template.path === null || template.sha256 === null
        ? null
        : { path: template.path, sha256: template.sha256 },
    settings,
    total,
    proof: overviewProof(input),
    machines,
    actions: overviewActions(input),
    doubts,
    together,
    doubtsAll,
    doubtsAt: doubtsAt(instruments, plan),
    allowances,
    versions,
    printed: overviewPrinted(input),
    groups: overviewGroups(input),
    risks: overviewRisks(input, machines, findings),
    instruments,
    cues: overviewCues(input),
    tracks: made.tracks,
    reasons: made.reasons,
    witnessesPerCell: mostWitnesses,
    reduced: [],
    worklist: overviewLists(input, doable),
    findings,
  };
};
