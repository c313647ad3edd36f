import { DiskFiles } from '../files/disk-files.ts';
import { agreesWithInstruments } from '../keep/keep-file/agrees-with-instruments.ts';
import type { Plan, PlanInstrument } from '../keep/plan.ts';
import { selectZones } from '../keep/why/select-zones.ts';
import { whyOf } from '../keep/why/why-of.ts';
import { asksAll, type Why, type WhyAsked } from '../keep/why/why.ts';
import { fold } from '../notation/fold.ts';
import { parseKey } from '../notation/key.ts';
import { nearest } from '../notation/nearest.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { TemplateChoice } from './choose-template.ts';
import { loadKeepFile } from './keep-file.ts';
import { findDefinition, playPlanned, type Played } from './why-evidence.ts';
import type { Watched } from './work-step.ts';

/** `template` and `instrument` may be left out: what the plan was made with is looked for. */
export interface WhyOptions extends TemplateChoice, Watched {
  /** Path of the keep file. */
  readonly keep: string;
  /** The instrument in question, by its id in the keep file. */
  readonly of: string;
  /** The number by which the source knows a zone. */
  readonly zone?: number | null;
  /** A key by number or name: zones that it may start. */
  readonly key?: string | null;
  /** 1-127: zones that it may start. */
  readonly velocity?: number | null;
  /** Zones of an articulation. */
  readonly articulation?: string | null;
  /** Zones that use a sample. */
  readonly sample?: string | null;
  /** Files, folders or patterns; those of the plan when left out. */
  readonly cues?: readonly string[];
  /** Ids of cues to leave out. */
  readonly without?: readonly string[];
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/** The octave of key 60 where no template says. */
const usualOctave = 4;

/**
 * Tells why zones of an instrument stay, from the keep file, and why others went: what came nearest
 * to needing them, from the cues. Without a zone, key, velocity, articulation or sample it tells of the
 * whole instrument, and no cue is played.
 *
 * @throws {InputError} when the keep file is not sound, or what was named can't be read
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when what is asked for is not there
 */
export const why = async (options: WhyOptions): Promise<Why> => {
  const disk = options.files ?? new DiskFiles();
  const { path, sha256, plan } = await loadKeepFile(disk, options.keep);
  const own = instrumentNamed(plan, options.of);
  const { chosen, instrument, findings } = await findDefinition(disk, plan, own, options);
  if (instrument !== null) agreesWithInstruments(plan, new Map([[own.id, instrument]]), path);
  const middleC = options.middleC ?? chosen?.template.middleC ?? usualOctave;
  const asked = askedOf(options, middleC);
  const zones = selectZones(own, instrument, asked, middleC);
  const isDropped = own.dropped.some(({ zone }) => zones.has(zone));
  let played: Played = { files: null, findings: [] };
  if (isDropped && !asksAll(asked) && chosen !== null && instrument !== null) {
    const { cues = [], without = [] } = options;
    played = await playPlanned(plan, own, chosen, instrument, {
      cues,
      without,
      onStep: options.onStep,
    });
  }
  return whyOf({
    keep: { path, sha256 },
    own,
    instrument,
    files: played.files,
    asked,
    zones,
    middleC,
    findings: [...findings, ...played.findings],
  });
};

const askedOf = (options: WhyOptions, middleC: number): WhyAsked => {
  const { zone = null, velocity = null, articulation = null, sample = null } = options;
  const written = options.key ?? null;
  const key = written === null ? null : parseKey(written, middleC);
  if (written !== null && key === null) {
    throw new UsageError(
      `"${written}" is no key.`,
      'Write a name such as C4, F#3 or Bb2, or a number from 0 to 127.',
    );
  }
  return { zone, key, velocity, articulation, sample };
};

/** By its id, accents and case aside, or by the file it came from. */
const instrumentNamed = ({ instruments }: Plan, name: string): PlanInstrument => {
  const found =
    instruments.find(({ id }) => id === name) ??
    instruments.find(({ id }) => fold(id) === fold(name)) ??
    instruments.find(({ source }) => source === name);
  if (found !== undefined) return found;
  const ids = instruments.map(({ id }) => id);
  const near = nearest(name, ids);
  throw new UsageError(
    `The keep file has no instrument "${name}".`,
    near === null ? `It has ${ids.slice(0, 20).join(', ')}.` : `Did you mean "${near}"?`,
  );
};
