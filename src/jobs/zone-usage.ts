import { DiskFiles } from '../files/disk-files.ts';
import { partialCues } from '../keep/completeness.ts';
import { controllerSteps } from '../keep/headroom-curve/ladder.ts';
import { planCues } from '../keep/plan-cues.ts';
import { stored, type UsageFile } from '../keep/usage-file/stored.ts';
import { ascending, leftInOrder, sorted } from '../playback/merge-usage.ts';
import { sourceKey, usageKey } from '../playback/zone-usage.ts';
import type { Template } from '../template/template.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { chooseTemplate, seenFrom, type TemplateChoice } from './choose-template.ts';
import { checkCueIds } from './find-reel.ts';
import { loadInstruments } from './load-instruments.ts';
import { cuesOfTemplate, isPartOfReel } from './part-of-reel.ts';
import { playReel } from './play-reel.ts';
import type { Watched } from './work-step.ts';

export interface ZoneUsageOptions extends TemplateChoice, Watched {
  /** Files, folders or patterns; those of the template when left out. */
  readonly cues?: readonly string[];
  /** Ids of cues to leave out. */
  readonly without?: readonly string[];
  /** Of each cue only the newest version counts. */
  readonly newest?: boolean;
  /** Cues that look incomplete and are whole by the user's word. */
  readonly acceptPartial?: readonly string[];
  /** One file holds several cues: its markers part them; null: as the template says. */
  readonly split?: 'markers' | null;
  /** Steps of room around controllers that plans may ask for; null: as the template says. */
  readonly controllerRoom?: number | null;
  /** Plans may find out how much room unknown cues would have needed. */
  readonly headroomCurve?: boolean;
  /** Plans may list what few notes reach: all places are kept. */
  readonly everyPlace?: boolean;
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/**
 * Finds what cues ask of their instruments, for `plan` to make plans from: usage of several runs and
 * machines merges.
 *
 * @throws {InputError} when an argument names nothing, or an instrument can't be trusted
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when there is neither a template nor an instrument, or a cue is not well named
 */
export const zoneUsage = async (options: ZoneUsageOptions): Promise<UsageFile> => {
  if (options.template === undefined && options.instrument === undefined) {
    throw new UsageError(
      'Which instruments do the cues play?',
      'Name the template: --template keepset.yaml, or one instrument: --instrument bank.sf2',
    );
  }
  const disk = options.files ?? new DiskFiles();
  const { template: written, files, folder } = await chooseTemplate(disk, options);
  const template = withRoom(written, options.controllerRoom ?? null);
  const instruments = await loadInstruments(files, template, options.onStep);
  const cues = seenFrom(folder, options.cues ?? []);
  const { without = [], newest = false, acceptPartial = [], everyPlace = false } = options;
  const furtherRooms = options.headroomCurve === true ? controllerSteps : [];
  const choices = {
    without: ascending(without),
    newest,
    acceptPartial: ascending(acceptPartial),
    split: options.split ?? template.split,
  };
  // Older versions are kept beside the newest: a plan leaves them out, and compares with them.
  const played = await playReel(files, template, instruments, {
    ...{ cues, ...choices, newest: false, furtherRooms, onStep: options.onStep },
    isPartial: await isPartOfReel(files, template, cues),
    ...(everyPlace ? { everyPlace } : {}),
  });
  const planned = planCues(played.usage);
  checkCueIds(
    planned.map(({ id }) => id),
    acceptPartial,
  );
  const rooms = new Set([template.headroom.controller, ...furtherRooms].filter((room) => room > 0));
  return {
    ...stored({
      schema: 'keepset/zone-usage@1',
      template: template.sha256,
      instruments: sorted(
        Object.fromEntries([...instruments].map(([id, { sha256 }]) => [id, sha256])),
      ),
      controllerRooms: [...rooms].sort((a, b) => a - b),
      everyPlace,
      choices,
      reel: await cuesOfTemplate(files, template),
      leftOut: leftInOrder(played.leftOut),
      sources: sorted(Object.fromEntries(played.sources.map((one) => [sourceKey(one), one]))),
      files: sorted(Object.fromEntries(played.usage.map((one) => [usageKey(one), one]))),
    }),
    findings: [...played.findings, ...partialCues(planned, [], acceptPartial)],
  };
};

/** Some cues may be on other machines: their order is that of whoever has them all. */
const withRoom = (template: Template, controller: number | null): Template => ({
  ...template,
  reel: null,
  headroom: { ...template.headroom, ...(controller === null ? {} : { controller }) },
});
