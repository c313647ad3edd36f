import type { Instrument } from '../instruments/instrument.ts';
import { parseInstrumentSource } from '../instruments/soundfont/source.ts';
import type { Plan, PlanInstrument } from '../keep/plan.ts';
import { withExactValues } from '../keep/why/exact-values.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { TemplateInstrument } from '../template/template.ts';
import { InputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import {
  chooseTemplate,
  seenFrom,
  templateName,
  type ChosenTemplate,
  type TemplateChoice,
} from './choose-template.ts';
import { loadDeclared, loadInstruments } from './load-instruments.ts';
import { playReel, type Reel } from './play-reel.ts';

/** What is at hand beside a keep file. What a person names must be there; what a plan names may be gone. */
export interface Definition {
  /** Null where nothing says what plays. */
  readonly chosen: ChosenTemplate | null;
  /** The instrument of the plan; null where it is not there, or is another. */
  readonly instrument: Instrument | null;
  readonly findings: readonly Finding[];
}

type Missing = 'template' | 'instrument' | 'cues';

const missing = ({ id }: PlanInstrument, what: Missing, file: string | null): Finding =>
  finding('warning', 'why-without-cues', file, { instrument: id, missing: what });

/** Looks for the definition of an instrument of a plan. */
export const findDefinition = async (
  files: Files,
  plan: Plan,
  own: PlanInstrument,
  choice: TemplateChoice,
): Promise<Definition> => {
  const isNamed = choice.template !== undefined || choice.instrument !== undefined;
  const written = isNamed ? undefined : (plan.settings.instrument ?? undefined);
  if (!isNamed) {
    const path = written === undefined ? templateName : parseInstrumentSource(written).path;
    if ((await infoOrNull(files, path)) === null) {
      const what = written === undefined ? 'template' : 'instrument';
      return { chosen: null, instrument: null, findings: [missing(own, what, path)] };
    }
  }
  const chosen = await chooseTemplate(
    files,
    written === undefined ? choice : { instrument: written, middleC: choice.middleC },
  );
  const declared = declaredAs(chosen, own);
  if (declared === undefined) {
    return { chosen, instrument: null, findings: [missing(own, 'instrument', null)] };
  }
  let instrument: Instrument;
  try {
    instrument = await loadDeclared(chosen.files, declared, chosen.template.path);
  } catch (error) {
    if (choice.instrument !== undefined || !(error instanceof InputError)) throw error;
    return {
      chosen,
      instrument: null,
      findings: [missing(own, 'instrument', error.finding.file)],
    };
  }
  if (instrument.sha256 !== own.sha256 || presetOf(declared.written) !== presetOf(own.source)) {
    const changed = finding('warning', 'why-instrument-changed', declared.written, {
      instrument: own.id,
    });
    return { chosen, instrument: null, findings: [changed] };
  }
  return { chosen, instrument: { ...instrument, id: declared.id }, findings: [] };
};

/** The digest of a bank is that of all its presets. */
const presetOf = (source: string): string => JSON.stringify(parseInstrumentSource(source).preset);

/** An instrument that plays all may have another path by now: it is known by its digest. */
const declaredAs = (
  { template: { path, instruments } }: ChosenTemplate,
  { id }: PlanInstrument,
): TemplateInstrument | undefined =>
  path === null ? instruments[0] : instruments.find((one) => one.id === id);

/** Usage of the cues of a plan, as far as they are there and the same. */
export interface Played {
  /** In the plan's reel order; null where there is nothing to go by. */
  readonly files: readonly FileUsage[] | null;
  readonly findings: readonly Finding[];
}

/**
 * Plays the cues of a plan once more, with the instrument in question telling all values apart.
 *
 * @param reel cues as the user named them; none: those of the plan that are still there
 */
export const playPlanned = async (
  plan: Plan,
  own: PlanInstrument,
  { template, files, folder }: ChosenTemplate,
  instrument: Instrument,
  reel: Pick<Reel, 'cues' | 'without' | 'onStep'>,
): Promise<Played> => {
  if ((plan.template?.sha256 ?? null) !== template.sha256) {
    return {
      files: null,
      findings: [finding('warning', 'why-template-changed', template.path, {})],
    };
  }
  const others = template.instruments.filter(({ id }) => id !== instrument.id);
  let instruments: ReadonlyMap<string, Instrument>;
  try {
    instruments = await loadInstruments(
      files,
      { instruments: others, path: template.path },
      reel.onStep,
    );
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { files: null, findings: [missing(own, 'instrument', error.finding.file)] };
  }
  const isAsked = reel.cues.length > 0;
  const cues = isAsked ? seenFrom(folder, reel.cues) : await stillThere(files, plan);
  if (cues.length === 0) return { files: null, findings: [missing(own, 'cues', null)] };
  const { usage } = await playReel(
    files,
    { ...template, reel: null },
    new Map([...instruments, [instrument.id, withExactValues(instrument)]]),
    {
      cues,
      without: reel.without,
      acceptPartial: plan.settings.acceptPartial,
      split: plan.settings.split,
      // What the plan counted counts here, and nothing else is looked at.
      newest: false,
      isPartial: true,
      onStep: reel.onStep,
    },
  );
  return onlyPlanned(plan, usage, isAsked);
};

const stillThere = async (files: Files, { cues }: Plan): Promise<readonly string[]> => {
  const paths = [...new Set(cues.flatMap((cue) => cue.files.map(({ path }) => path)))];
  const found = await Promise.all(paths.map((path) => infoOrNull(files, path)));
  return paths.filter((_, i) => found[i]?.kind === 'file');
};

/** Leaves aside what the plan does not know, and says so. @param isAsked the user named some cues */
const onlyPlanned = (plan: Plan, usage: readonly FileUsage[], isAsked: boolean): Played => {
  const order = new Map(plan.cues.map(({ id }, i) => [id, i]));
  const digest = (cue: string, sha256: string): string => `${sha256} ${cue}`;
  const planned = new Set(
    plan.cues.flatMap(({ id, files }) => files.map(({ sha256 }) => digest(id, sha256))),
  );
  const same = usage
    .filter(({ cue, sha256 }) => planned.has(digest(cue, sha256)))
    .sort((a, b) => order.get(a.cue)! - order.get(b.cue)!);
  const left = new Set(plan.settings.without);
  const changed = unique(usage.filter((file) => !same.includes(file)).map(({ cue }) => cue)).filter(
    (cue) => !left.has(cue),
  );
  const there = new Set(same.map(({ cue, sha256 }) => digest(cue, sha256)));
  const absent = isAsked
    ? []
    : plan.cues
        .filter(({ id, files }) => files.some(({ sha256 }) => !there.has(digest(id, sha256))))
        .map(({ id }) => id)
        .filter((id) => !changed.includes(id));
  const isWhole = changed.length === 0 && absent.length === 0;
  return {
    files: same.length === 0 ? null : same,
    findings: isWhole ? [] : [finding('warning', 'why-cues-changed', null, { changed, absent })],
  };
};

const unique = (names: readonly string[]): readonly string[] => [...new Set(names)];

const infoOrNull = async (files: Files, path: string) => {
  try {
    return await files.info(path);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
};
