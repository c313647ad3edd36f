import type { Instrument } from '../../instruments/instrument.ts';
import { calibrate } from '../../memory/calibrate.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import { noHeadroom, type TemplateInstrument } from '../../template/template.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { settledAsPlain } from '../decision.ts';
import type { Plan } from '../plan.ts';
import { silentNotes } from '../plan-findings.ts';
import { reachedClasses, type ReachedClass } from '../reach.ts';
import { Silences } from '../silence.ts';
import type { WayOut } from './check.ts';
import { choiceFindings, learnedFrom } from './choice-findings.ts';
import { findMisses } from './find-misses.ts';
import { keptZones } from './kept-zones.ts';
import type { CheckInput } from './check-input.ts';
import type { CheckedReel } from './checked-cues.ts';
import type { Reloading } from './reload.ts';
import { waysOut } from './ways/ways-out.ts';

/** An instrument that the keep file speaks of, and what is missing of it. */
export interface Compared extends Reloading {
  /** Notes that ask for anything missing, each once: plainly, and only through a doubt. */
  readonly notes: number;
  readonly doubtfulNotes: number;
  /** For each miss. */
  readonly ways: readonly (readonly WayOut[])[];
  readonly findings: readonly Finding[];
}

/**
 * Holds what cues need of one instrument against its zones in the keep file.
 *
 * @param reel which planned cues are not checked, and which checked ones are not as planned
 */
export const compareInstrument = (
  { keep: { plan }, template }: CheckInput,
  { player, measured }: TemplateInstrument,
  instrument: Instrument,
  files: readonly FileUsage[],
  { absent, changed }: CheckedReel,
): Compared => {
  const planned = plan.instruments.find(({ id }) => id === instrument.id)!;
  const keep = keptZones(instrument, planned);
  const excluded = settledAsPlain(planned.settle);
  const learned = learnedFrom(planned, absent);
  const silences = new Silences(excluded);
  const reached = watched(
    reachedClasses(instrument, files, noHeadroom, learned),
    silences,
    changed,
  );
  const { misses, notes, doubtfulNotes, asking } = findMisses(reached, keep, excluded);
  const added = addedCopies(asking, planned);
  const ways =
    misses.length === 0
      ? []
      : waysOut(
          {
            instrument,
            files: files.map((file) => ({
              ...file,
              copies: file.copies.filter((copy) => copy.instrument === instrument.id),
            })),
            learned,
            excluded,
            isLoaded: (copy, zone, start) => keep.loaded(copy)[zone] === 1 && keep.staysOpen(start),
            isKept: (copy, zone) => keep.kept(copy)[zone] === 1,
          },
          misses,
        );
  const newCopies =
    added.length === 0 || template.sha256 === null
      ? []
      : [
          finding('warning', 'check-copies-added', instrument.source, {
            instrument: instrument.id,
            copies: added,
            bytes: player.perCopy,
          }),
        ];
  return {
    instrument,
    player,
    calibration: calibrate(instrument, player, measured, template.path).calibration,
    machine: planned.machine,
    planned,
    keep,
    misses,
    added: unloadedCopies(instrument.id, files, planned),
    notes,
    doubtfulNotes,
    ways,
    findings: [
      ...newCopies,
      ...choiceFindings(instrument, planned, files, absent),
      ...silentNotes(instrument, silences),
    ],
  };
};

/** Notes that ask for nothing are told of cues that are not as planned: of the others the plan has. */
function* watched(
  all: Iterable<ReachedClass>,
  silences: Silences,
  changed: ReadonlySet<string>,
): Generator<ReachedClass> {
  for (const reached of all) {
    if (changed.has(reached.file.cue)) silences.look(reached);
    yield reached;
  }
}

/** Copies that need zones now and got no note in any cue of the plan: they may not be loaded at all. */
const addedCopies = (
  asking: readonly string[],
  { copies }: Plan['instruments'][number],
): readonly string[] => {
  const loaded = new Set(
    copies.flatMap(({ name, notes, zonesKept }) => (notes > 0 || zonesKept > 0 ? [name] : [])),
  );
  return asking.filter((name) => !loaded.has(name));
};

/** As the plan counts: a copy that gets notes is loaded, whether or not they sound. */
const unloadedCopies = (
  instrument: string,
  files: readonly FileUsage[],
  { copies }: Plan['instruments'][number],
): number => {
  const loaded = new Set(copies.flatMap(({ name, zonesKept }) => (zonesKept > 0 ? [name] : [])));
  const played = files.flatMap((file) =>
    file.copies.flatMap((copy) =>
      copy.instrument === instrument && (copy.notes > 0 || copy.damaged) ? [copy.copy] : [],
    ),
  );
  return new Set(played.filter((name) => !loaded.has(name))).size;
};
