import type { PlanCopy, PlanInstrument } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';

/** @param cues ids */
export const copiesAgree = (
  instrument: PlanInstrument,
  cues: ReadonlySet<string>,
  found: Disagreements,
): void => {
  const { copies, shares } = instrument;
  found.once(
    'copy',
    copies.map(({ name }) => name),
  );
  for (const { name, chosen } of copies) {
    for (const { cue } of chosen) found.known('copy-cue', cue, cues, name);
  }
  if (shares === 'machine') for (const copy of copies) sharedAgrees(instrument, copy, found);
  else ownZonesAgree(instrument, found);
};

/** All copies that play load the same. */
const sharedAgrees = (
  { zonesKept }: PlanInstrument,
  { name, notes, zonesKept: own, kept, muted }: PlanCopy,
  found: Disagreements,
): void => {
  for (const zone of [...(kept ?? []), ...muted]) found.never('copy-zone', zone, name);
  if (kept !== null && kept.length === 0) found.never('copy-zones', 0, name);
  // A copy without notes is loaded where some that could not be read may have been meant for it.
  if (notes > 0 || own > 0) found.same('copy-zones', own, zonesKept, name);
};

const ownZonesAgree = ({ copies, kept: all }: PlanInstrument, found: Disagreements): void => {
  const zones = new Set(all.map(({ zone }) => zone));
  const loaded = new Set<number>();
  const silent = new Set<number>();
  for (const { name, zonesKept, kept, muted } of copies) {
    if (kept === null) {
      found.never('copy-zones', 'null', name);
      continue;
    }
    const own = found.once('copy-zone', kept, name);
    const ownMuted = found.once('copy-zone-muted', muted, name);
    found.same('copy-zones', zonesKept, kept.length, name);
    for (const zone of own) {
      found.known('copy-zone', zone, zones, name);
      (ownMuted.has(zone) ? silent : loaded).add(zone);
    }
    for (const zone of ownMuted) found.known('copy-zone-muted', zone, own, name);
  }
  // One that no cue plays may stay all the same: for a pin, or for what could not be read.
  if (copies.length === 0) return;
  for (const { zone, reasons } of all) {
    if (!loaded.has(zone) && !silent.has(zone)) found.never('zone-in-no-copy', zone);
    else if (loaded.has(zone) === reasons.includes('mutes')) {
      found.same('zone-reasons', reasons.join(', '), loaded.has(zone) ? 'loaded' : 'mutes', zone);
    }
  }
};
