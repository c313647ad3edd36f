import type { Plan, PlanRare, RareUnit } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';

/** @param cues ids */
export const rareAgrees = (
  { instruments, total }: Plan,
  { fewerThan, units, bytes }: PlanRare,
  cues: ReadonlySet<string>,
  found: Disagreements,
): void => {
  const byId = new Map(instruments.map((one) => [one.id, one]));
  found.atMost('rare-bytes', bytes, total.bytes.kept);
  for (const unit of units) {
    found.about(null);
    found.known('rare-unit', unit.instrument, byId);
    const instrument = byId.get(unit.instrument);
    if (instrument === undefined) continue;
    found.about(unit.instrument);
    found.same('instrument-machine', unit.machine, instrument.machine);
    found.atMost('rare-samples', unit.samples, instrument.samplesKept);
    found.atMost('rare-bytes', unit.bytes, total.bytes.kept);
    const copy = instrument.copies.find(({ name }) => name === unit.copy);
    if (unit.copy !== null && copy === undefined) found.known('copy', unit.copy, new Set());
    const kept = new Set(copy?.kept ?? instrument.kept.map(({ zone }) => zone));
    for (const zone of found.once('rare-zone', unit.zones)) found.known('rare-zone', zone, kept);
    for (const index of unit.articulations) {
      if (index >= instrument.articulations.length) {
        found.known('rare-articulation', index, new Set());
      }
    }
    notesAgree(unit, fewerThan, cues, found);
  }
};

const notesAgree = (
  { notes, cues: byCue, witnesses }: RareUnit,
  fewerThan: number,
  cues: ReadonlySet<string>,
  found: Disagreements,
): void => {
  found.atMost('rare-notes', notes, fewerThan - 1);
  found.same(
    'rare-notes',
    notes,
    Object.values(byCue).reduce((sum, one) => sum + one, 0),
  );
  const own = new Set(Object.keys(byCue));
  for (const cue of own) found.known('rare-cue', cue, cues);
  for (const { cue } of witnesses) found.known('rare-cue', cue, own);
};
