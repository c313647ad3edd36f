import { DiskFiles } from '../files/disk-files.ts';
import { wantedKey } from '../primer/excerpts/wanted-zone.ts';
import { compareLoaded, type CopyZone } from '../primer/hearing/compare.ts';
import { hear } from '../primer/hearing/hear.ts';
import type { MissingZone, PrimerVerification } from '../primer/primer.ts';
import type { Instrument } from '../instruments/instrument.ts';
import { isDamaged } from '../midi/score.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { playAsCue, type PlayedAsCue } from './play-as-cue.ts';
import { preparePrimer, type PrimerChoice } from './prepare-primer.ts';

export interface VerifyPrimerOptions extends PrimerChoice {
  /** The file: a primer as a sequencer has exported it again. */
  readonly file: string;
}

/**
 * Finds out whether a file still loads the keep set: all that the primer loads that would be made now,
 * and nothing else.
 *
 * @throws {InputError} as for making a primer, and when the file is not a MIDI file
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when there is no such cue or machine
 */
export const verifyPrimer = async (options: VerifyPrimerOptions): Promise<PrimerVerification> => {
  const disk = new DiskFiles();
  const { file, machine } = options;
  const bytes = await disk.read(file);
  const { keep, plan, template, instruments, base, composed } = await preparePrimer(disk, options);
  const played = playAsCue(bytes, file, base, composed.copies.base.format, template, instruments);
  const excused = new Set(composed.notPrimed.map(wantedKey));
  // Where no cue can ask for a zone, nothing lacks it.
  const unprimed = new Set(
    composed.notPrimed.filter(({ because }) => because !== 'tied').map(wantedKey),
  );
  const compared = plan.instruments
    .map((planned) => {
      const instrument = instruments.get(planned.id)!;
      const heard = hear(instrument, planned, played.usage);
      const { loaded, missing, needless } = compareLoaded(instrument, planned, heard);
      const isHere = (machine ?? planned.machine) === planned.machine;
      const due = missing.filter(
        ({ copy, zone }) =>
          isHere && !excused.has(wantedKey({ instrument: planned.id, copy, zone })),
      );
      const lacking = missing.filter(
        ({ copy, zone }) =>
          isHere && unprimed.has(wantedKey({ instrument: planned.id, copy, zone })),
      );
      const told = (zones: readonly CopyZone[]): readonly MissingZone[] => named(instrument, zones);
      return {
        id: planned.id,
        zones: isHere ? loaded.length + due.length : 0,
        loaded: isHere ? loaded.length : 0,
        notPrimed: lacking.length,
        missing: told(due),
        needless: told(needless),
      };
    })
    .filter(({ zones, notPrimed, needless }) => zones + notPrimed + needless.length > 0);
  const isWhole = compared.every((one) => one.missing.length === 0 && one.needless.length === 0);
  return {
    schema: 'keepset/primer-verification@1',
    keep: { path: keep.path, sha256: keep.sha256 },
    file,
    verdict: isWhole && !isDamaged(played.score) ? 'verified' : 'not-verified',
    instruments: compared,
    findings: findingsOf(file, played),
  };
};

const named = ({ zones: all }: Instrument, zones: readonly CopyZone[]): readonly MissingZone[] =>
  zones.map(({ copy, zone }) => ({ zone: all[zone]!.id, key: all[zone]!.key, copy }));

const findingsOf = (file: string, { score, routed }: PlayedAsCue): readonly Finding[] => {
  const damaged = score.tracks.filter(({ damage }) => damage !== null).length + score.missingTracks;
  const tracks = [...new Set(routed.unmapped.map(({ track }) => score.tracks[track]!.name ?? ''))];
  return [
    ...score.findings,
    ...(damaged === 0 ? [] : [finding('warning', 'cue-damaged', file, { tracks: damaged })]),
    ...(tracks.length === 0
      ? []
      : [finding('warning', 'primer-tracks-unmapped', file, { tracks })]),
  ];
};
