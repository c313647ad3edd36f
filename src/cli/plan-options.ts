import { InvalidArgumentError, Option, type Command } from 'commander';
import { nearest } from '../notation/nearest.ts';
import { parseMiddleC } from '../notation/key.ts';
import type { Headroom } from '../template/template.ts';
import { doubtNames } from '../terms/doubt.ts';
import type { Settlements } from '../terms/settlement.ts';
import { reelChoices, type ReelFlags } from './options.ts';

const scope = 'Scope:';
const rules = 'What stays:';

export const templateOption = (): Option =>
  new Option('--template <file>', 'the template; else keepset.yaml (plan)').helpGroup(scope);

/** The keep file that a command goes by. */
export const keepOption = (): Option =>
  new Option('--keep <file>', 'the keep file, from keepset plan -o')
    .makeOptionMandatory()
    .helpGroup(scope);

/** `--loaded FILE`: what has been done of a worklist. */
export const loadedOption = (text: string): Option =>
  new Option('--loaded <file>', text).helpGroup(scope);

export const instrumentOption = (): Option =>
  new Option('-i, --instrument <file>', 'one for all: bank.sf2#0:48, x.sfz, x.csv').helpGroup(
    scope,
  );

/** `--middle-c C3`: what key 60 is called in a zone table, or in what `where` says. */
export const middleCOption = (where = 'a zone table'): Option =>
  new Option('--middle-c <name>', `key 60 in ${where}: C3, C4 or C5`)
    .argParser((value: string): number => {
      const octave = parseMiddleC(value);
      if (octave === null) throw new InvalidArgumentError('Write C4, or C3, or C5.');
      return octave;
    })
    .helpGroup(scope);

export const allowUnmappedOption = (): Option =>
  new Option('--allow-unmapped', 'leave tracks aside that no rule takes').helpGroup(scope);

const rooms: readonly (keyof Headroom)[] = ['keys', 'velocity', 'controller'];

/** `--headroom keys=2,velocity=8`: room around what is played. */
export const headroomOption = (): Option =>
  new Option('--headroom <room>', 'more than is played: keys=2,velocity=8')
    .argParser((value: string): Partial<Headroom> =>
      Object.fromEntries(value.split(',').map((one) => roomOf(one.trim()))),
    )
    .helpGroup(rules);

const roomOf = (text: string): readonly [keyof Headroom, number] => {
  const [name = '', amount = ''] = text.split('=');
  const room = rooms.find((one) => one === name);
  if (room === undefined || !/^\d{1,3}$/.test(amount) || Number(amount) > 127) {
    throw new InvalidArgumentError('Write keys=2,velocity=8,controller=8; each from 0 to 127.');
  }
  return [room, Number(amount)];
};

/** `--pin horns/sustain`: kept whatever the cues play. */
const pinOption = (): Option =>
  new Option('--pin <instrument/articulation>', 'keep it whatever the cues play (repeatable)')
    .argParser((value: string, before: readonly string[] | undefined): readonly string[] => [
      ...(before ?? []),
      value,
    ])
    .helpGroup(rules);

/** `--rare 4`: what fewer than four notes reach, to decide on. */
export const rareOption = (): Option =>
  new Option('--rare <notes>', 'list what fewer notes reach')
    .argParser((value: string): number => {
      if (!/^[1-9]\d{0,6}$/.test(value))
        throw new InvalidArgumentError('Write a number from 1 on.');
      return Number(value);
    })
    .helpGroup(rules);

export const headroomCurveOption = (): Option =>
  new Option('--headroom-curve', 'how much room unknown cues would have needed').helpGroup(rules);

/** `--usage FILE`: usage that was written before, in place of cues. */
const usageFileOption = (): Option =>
  new Option('--usage <file>', 'usage in place of cues (repeatable)')
    .argParser((value: string, before: readonly string[] | undefined): readonly string[] => [
      ...(before ?? []),
      value,
    ])
    .helpGroup(scope);

/** `--settle order=plain`: answers a doubt. */
const settleOption = (): Option =>
  new Option('--settle <doubt=answer>', 'plain or accept a doubt (repeatable)')
    .argParser(settlement)
    .helpGroup(rules);

const settlement = (value: string, before: Settlements | undefined): Settlements => {
  const [name = '', ...rest] = value.split('=');
  const answer = rest.join('=');
  const doubt = doubtNames.find((one) => one === name);
  if (doubt === undefined || doubt === 'damage') {
    const known = doubtNames.filter((one) => one !== 'damage');
    const near = nearest(name, known);
    throw new InvalidArgumentError(
      doubt === 'damage'
        ? 'Damage can not be settled: export the cue again, or leave it out with --without.'
        : `There is no doubt of that name; ${near === null ? `there are ${known.join(', ')}` : `did you mean ${near}`}${near === null ? '.' : '?'}`,
    );
  }
  if (answer !== 'plain' && answer !== 'accept') {
    throw new InvalidArgumentError(`Write ${doubt}=plain or ${doubt}=accept.`);
  }
  return { ...before, [doubt]: answer };
};

/** What a command that makes a plan is told. */
export interface PlanFlags extends ReelFlags {
  readonly usage?: readonly string[];
  readonly template?: string;
  readonly instrument?: string;
  readonly middleC?: number;
  readonly settle?: Settlements;
  readonly headroom?: Partial<Headroom>;
  readonly pin?: readonly string[];
}

export const addPlanOptions = (command: Command): Command =>
  command
    .addOption(usageFileOption())
    .addOption(templateOption())
    .addOption(instrumentOption())
    .addOption(middleCOption())
    .addOption(settleOption())
    .addOption(headroomOption())
    .addOption(pinOption());

/** The same for a job. */
export const planChoices = (flags: PlanFlags) => ({
  ...reelChoices(flags),
  template: flags.template,
  instrument: flags.instrument,
  middleC: flags.middleC,
  usage: flags.usage ?? [],
  settle: flags.settle ?? {},
  headroom: flags.headroom ?? {},
  pins: flags.pin ?? [],
});
