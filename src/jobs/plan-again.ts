import type { Instrument } from '../instruments/instrument.ts';
import { makePlan, type PlanInput } from '../keep/make-plan.ts';
import type { Plan } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import type { Files } from '../terms/files.ts';
import { findReel } from './find-reel.ts';
import { playReel } from './play-reel.ts';
import type { OnStep } from './work-step.ts';

/**
 * The plan of a keep file made once more from its cues, with what was chosen then: a file that a person
 * can edit is not taken for proof of what the cues need.
 *
 * @param planned read from a keep file; its cues must be there and unchanged
 * @returns `leftOut`: ids of cues that lie in one file with planned ones and are none of the plan
 */
export const planAgain = async (
  files: Files,
  planned: Plan,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
): Promise<{ readonly full: Plan; readonly leftOut: readonly string[] }> => {
  const { input, leftOut } = await inputAgain(files, planned, template, instruments);
  return { full: makePlan(input), leftOut };
};

/**
 * What a plan was made of, read once more.
 *
 * @param everyPlace keep every place of every class of usage, not the first three
 */
export const inputAgain = async (
  files: Files,
  planned: Plan,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  everyPlace = false,
  onStep?: OnStep,
): Promise<{ readonly input: PlanInput; readonly leftOut: readonly string[] }> => {
  const { settle, headroom, pins, newest, acceptPartial, allowUnmapped, split } = planned.settings;
  const chosen: Template = {
    ...template,
    settle,
    headroom,
    pins: pins.map((pin) => ({ ...pin, at: null })),
  };
  const cues = [...new Set(planned.cues.flatMap((cue) => cue.files.map(({ path }) => path)))];
  const without = await cuesLeftOut(files, planned, cues);
  const { usage, findings } = await playReel(files, chosen, instruments, {
    cues,
    without,
    // Those of the plan are the newest already.
    newest: false,
    acceptPartial,
    split,
    isPartial: true,
    ...(everyPlace ? { everyPlace } : {}),
    onStep,
  });
  const input = {
    template: chosen,
    instruments,
    files: usage,
    reel: { without, newest, acceptPartial, allowUnmapped, split },
    rare: null,
    headroomCurve: false,
    isPartial: true,
    findings,
  };
  return { input, leftOut: without };
};

/** Cues that the plan leaves out and that lie in one file with others. */
const cuesLeftOut = async (
  files: Files,
  { cues, settings: { split } }: Plan,
  paths: readonly string[],
): Promise<readonly string[]> => {
  if (split === null) return [];
  const planned = new Set(cues.map(({ id }) => id));
  const there = (await findReel(files, paths, { split })).files.flatMap((file) => file.cues);
  const others = there.map(({ cue }) => cue).filter((cue) => !planned.has(cue));
  return [...new Set(others)];
};
