import type { Instrument } from '../instruments/instrument.ts';
import type { Plan } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import { inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { sortInstruments, type Definition, type Sorted } from '../trim/definitions.ts';
import type { OutputFile } from '../trim/output-file.ts';
import { placeAll, type Placed } from '../trim/place.ts';
import type { TrimAccepted } from '../trim/trim.ts';
import type { Trimmed } from '../trim/trimmed.ts';
import { templateName, type TemplateChoice } from './choose-template.ts';
import { keepInputs } from './keep-inputs.ts';
import { acceptedOf, refuseUnknown, type Acceptance } from './trim-acceptance.ts';
import { planAgain } from './plan-again.ts';
import { PathsOut } from './paths-out.ts';
import { smallTemplate } from './small-template.ts';

export interface TrimInput extends TemplateChoice, Acceptance {
  readonly keep: string;
  readonly out: string;
}

/** All that is known before anything is written. */
export interface PreparedTrim {
  readonly keep: { readonly sha256: string };
  /** As the keep file has it. */
  readonly plan: Plan;
  /** The same, made again from the cues. */
  readonly full: Plan;
  /** Ids of cues that lie in one file with planned ones and are none of the plan. */
  readonly leftOut: readonly string[];
  readonly template: Template;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly sorted: Sorted;
  readonly placed: readonly Placed[];
  /** Bytes of the files of definitions of which nothing is written, by their path. */
  readonly unwritten: ReadonlyMap<string, number>;
  /** The files to write, the list of them left out; what they are copied from as seen from the working folder. */
  readonly outputs: readonly OutputFile[];
  /** Files that must not be written over, as seen from the working folder. */
  readonly inputs: readonly string[];
  readonly accepted: TrimAccepted;
  /** The output folder, from the root of the disk and without links. */
  readonly realOut: string;
  /** A path seen from the template's folder, as seen from the output folder. */
  readonly moved: (path: string) => string;
  readonly findings: readonly Finding[];
}

/** What a bank says of itself from then on. */
const note = 'Trimmed by keepset: only what the planned cues need.';

/**
 * Works out what is to be written, and refuses what can't be proved.
 *
 * @throws {InputError} when an input is not what the plan was made with, or usage is not wholly known
 */
export const prepareTrim = async (disk: Files, input: TrimInput): Promise<PreparedTrim> => {
  const { keep, plan, template, files, folder, instruments } = await keepInputs(
    disk,
    input.keep,
    input,
    'trim',
  );
  const { full, leftOut } = await planAgain(files, plan, template, instruments);
  const known = { ...full, findings: [...full.findings, ...doubtsOf(plan)] };
  const accepted = acceptedOf(known, input);
  refuseUnknown(known, accepted, keep.path);
  const sorted = sortInstruments(plan, template, instruments);
  if (sorted.definitions.length === 0) throw inputError('trim-nothing', keep.path, {});
  const trimmed: (readonly [Definition, Trimmed])[] = [];
  for (const one of sorted.definitions) trimmed.push([one, await trimOne(files, one)]);
  const placed = placeAll(trimmed, template.path !== null);
  const paths = await PathsOut.from(folder, input.out);
  const text = await smallTemplate(files, { plan, template, placed, paths, leftOut });
  const outputs = [
    ...placed.flatMap((one) => one.files).map((file) => seenFromHere(file, paths)),
    {
      path: templateName,
      pieces: [{ kind: 'bytes' as const, bytes: new TextEncoder().encode(text) }],
    },
  ];
  return {
    keep: { sha256: keep.sha256 },
    plan,
    full,
    leftOut,
    template,
    instruments,
    sorted,
    placed,
    unwritten: await unwrittenBytes(files, template, sorted),
    outputs: eachOnce(outputs),
    inputs: [
      keep.path,
      ...(template.path === null ? [] : [template.path]),
      ...template.instruments.map(({ source }) => paths.fromHere(source.path)),
      ...plan.cues.flatMap((cue) => cue.files.map(({ path }) => paths.fromHere(path))),
    ],
    accepted,
    realOut: paths.out,
    moved: (path) => paths.fromOut(path),
    findings: [...trimmed.flatMap(([, one]) => one.findings), ...sortedFindings(sorted)],
  };
};

/** Whether a cue is whole only the plan of the reel can tell: it knew of other versions. */
const doubtsOf = ({ findings }: Plan): readonly Finding[] =>
  findings.filter(({ code }) => code === 'cue-looks-partial');

/** Writers that are not needed are not loaded. */
const trimOne = async (
  files: Files,
  { kind, path, set }: Pick<Definition, 'kind' | 'path' | 'set'>,
): Promise<Trimmed> => {
  if (kind === 'sfz') {
    const { trimSfz } = await import('../trim/sfz/trim-sfz.ts');
    return trimSfz(files, path, set);
  }
  const { trimBank } = await import('../trim/soundfont/trim-bank.ts');
  return trimBank(files, path, set, note);
};

const seenFromHere = (file: OutputFile, paths: PathsOut): OutputFile => ({
  ...file,
  pieces: file.pieces.map((piece) =>
    piece.kind === 'bytes' ? piece : { ...piece, path: paths.fromHere(piece.path) },
  ),
});

/** Instruments of one folder may use one sample. */
const eachOnce = (files: readonly OutputFile[]): readonly OutputFile[] => [
  ...new Map(files.map((file) => [file.path, file])).values(),
];

/** What the files of an instrument take of which nothing is written. */
const unwrittenBytes = async (
  files: Files,
  { instruments }: Template,
  { unplayed }: Sorted,
): Promise<ReadonlyMap<string, number>> => {
  const sizes = new Map<string, number>();
  for (const { id, source } of instruments) {
    if (!unplayed.includes(id) || sizes.has(source.path)) continue;
    const nothing = { loaded: new Set<number>(), silent: new Set<number>() };
    const set = { ...nothing, presetZones: new Set<number>(), programs: new Set<number>() };
    const bytes =
      source.kind === 'sfz'
        ? (await trimOne(files, { kind: 'sfz', path: source.path, set })).bytesBefore
        : ((await files.info(source.path))?.size ?? 0);
    sizes.set(source.path, bytes);
  }
  return sizes;
};

const sortedFindings = ({ unplayed, unwritable }: Sorted): readonly Finding[] => [
  ...(unplayed.length === 0
    ? []
    : [finding('note', 'trim-unplayed', null, { instruments: unplayed })]),
  ...(unwritable.length === 0
    ? []
    : [finding('note', 'trim-unwritable', null, { instruments: unwritable })]),
];
