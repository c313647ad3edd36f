import { doubtNames, doubtSet, minimal, namesOf } from '../../../terms/doubt.ts';
import type { DoubtName } from '../../../terms/doubt.ts';
import type { KeptZone, PlanInstrument, PlanSettings, Reason } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';
import { isComputed } from './instruments.ts';

/** What kept zones may name. */
interface Names {
  readonly cues: ReadonlySet<string>;
  readonly doubts: ReadonlySet<string>;
}

/** How many notes prove a kept zone, where there are so many. */
const witnessLimit = 3;

export const keptZonesAgree = (
  instrument: PlanInstrument,
  settings: PlanSettings,
  names: Names,
  found: Disagreements,
): void => {
  const bytesOf = new Map<string, number>();
  for (const { zone, samples, bytes } of [...instrument.kept, ...instrument.dropped]) {
    if (samples.length === 0) found.atMost('zone-bytes', bytes, 0, zone);
    // The same samples take the same wherever they are.
    const key = samples.join('\n');
    const known = bytesOf.get(key);
    if (known === undefined) bytesOf.set(key, bytes);
    else found.same('zone-bytes', bytes, known, zone);
    if (isComputed(instrument)) found.atMost('zone-bytes', bytes, instrument.bytes.full, zone);
  }
  const mayBe = possibleReasons(instrument, settings);
  for (const zone of instrument.kept) {
    if (isComputed(instrument)) {
      found.atMost('zone-bytes', zone.bytes, instrument.bytes.kept, zone.zone);
    }
    for (const reason of zone.reasons) {
      if (!mayBe(reason)) found.never('zone-reasons', reason, zone.zone);
    }
    reasonsAgree(zone, found);
    doubtsOfZoneAgree(zone, instrument, names, found);
    notesAgree(zone, names, found);
  }
};

/** Reasons that follow from what was asked for. */
const possibleReasons = (
  { id, unloads, settle }: PlanInstrument,
  { headroom, pins }: PlanSettings,
): ((reason: Reason) => boolean) => {
  const impossible = new Set<Reason>(doubtNames.filter((name) => settle[name] === 'plain'));
  if (Math.max(headroom.keys, headroom.velocity, headroom.controller) === 0) {
    impossible.add('headroom');
  }
  if (!pins.some(({ instrument }) => instrument === id)) impossible.add('pinned');
  if (unloads === 'sample') impossible.add('grain');
  return (reason) => !impossible.has(reason);
};

/** Reasons follow from the doubts, but for what other rules keep: that nobody plays. */
const reasonsAgree = ({ zone, reasons, doubts, samples }: KeptZone, found: Disagreements): void => {
  const [first] = reasons;
  const isByRule = first !== undefined && byRule.has(first);
  const occurring = new Set(doubts.flat());
  const isPlain = doubts.some((set) => set.length === 0);
  const usage = isPlain ? ['played'] : doubtNames.filter((name) => occurring.has(name));
  const expected = isByRule ? [first] : usage;
  if (reasons.length === 0) found.atLeast('zone-reasons', 0, 1, zone);
  found.same('zone-reasons', reasons.join(', '), expected.join(', '), zone);
  if (first === 'mutes') {
    found.atMost('zone-samples', samples.length, 0, zone);
    found.atLeast('zone-doubts', doubts.length, 1, zone);
  } else if (isByRule) found.atMost('zone-doubts', doubts.length, 0, zone);
};

const byRule: ReadonlySet<Reason> = new Set<Reason>([
  'mutes',
  'linked',
  'pinned',
  'headroom',
  'grain',
]);

const doubtsOfZoneAgree = (
  { zone, doubts }: KeptZone,
  { settle }: PlanInstrument,
  names: Names,
  found: Disagreements,
): void => {
  const text = (sets: readonly (readonly DoubtName[])[]): string =>
    sets.map((set) => set.join(' + ')).join(', ');
  const least = minimal(doubts.map((set) => doubtSet(...set))).map(namesOf);
  found.same('zone-doubts', text(doubts), text(least), zone);
  for (const name of new Set(doubts.flat())) {
    found.known('zone-doubts', name, names.doubts, zone);
    if (settle[name] === 'plain') found.never('zone-doubts', name, zone);
  }
};

const notesAgree = (
  { zone, reasons, notes, cues, witnesses }: KeptZone,
  names: Names,
  found: Disagreements,
): void => {
  const own = new Set(Object.keys(cues));
  found.same(
    'zone-notes',
    notes,
    Object.values(cues).reduce((sum, one) => sum + one, 0),
    zone,
  );
  for (const cue of own) found.known('zone-cue', cue, names.cues, zone);
  for (const { cue } of witnesses) found.known('zone-witness', cue, own, zone);
  const [first] = reasons;
  if (first !== undefined && byRule.has(first)) found.atMost('zone-cues', own.size, 0, zone);
  else if (first === 'played') found.atLeast('zone-cues', own.size, 1, zone);
  found.atMost('zone-witnesses', witnesses.length, witnessLimit, zone);
  // What cuts others short is no note and a witness all the same.
  const least = Math.max(Math.min(notes, witnessLimit), own.size > 0 ? 1 : 0);
  found.atLeast('zone-witnesses', witnesses.length, least, zone);
};
