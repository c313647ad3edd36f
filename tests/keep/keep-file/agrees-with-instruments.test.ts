/** A keep file that says something else of an instrument than the instrument itself is refused. */
import { beforeAll, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { chooseTemplate } from '../../../src/jobs/choose-template.ts';
import { loadInstruments } from '../../../src/jobs/load-instruments.ts';
import { agreesWithInstruments } from '../../../src/keep/keep-file/agrees-with-instruments.ts';
import type { Plan } from '../../../src/keep/plan.ts';
import type { InputError } from '../../../src/terms/errors.ts';
import type { Stated } from '../../../src/terms/findings/keep-files.ts';
import { bank } from '../../jobs/small-score.ts';
import { changed, kindOf, type Json } from './places.ts';
import { smallPlan, tableFiles, templatePlan } from './plans.ts';

type Loaded = ReadonlyMap<string, Instrument>;

const loaded = async (files: MemoryFiles, instrument?: string): Promise<Loaded> => {
  const choice = instrument === undefined ? {} : { instrument };
  const { template, files: own } = await chooseTemplate(files, choice);
  return loadInstruments(own, template);
};

let small: Plan;
let template: Plan;
let bankAtHand: Loaded;
let tablesAtHand: Loaded;
beforeAll(async () => {
  small = await smallPlan();
  template = await templatePlan();
  bankAtHand = await loaded(new MemoryFiles({ 'bank.sf2': bank() }), 'bank.sf2');
  tablesAtHand = await loaded(new MemoryFiles(tableFiles));
}, 60_000);

const disagreements = (plan: Plan, instruments: Loaded): readonly Stated[] => {
  try {
    agreesWithInstruments(plan, instruments, 'keep.json');
    return [];
  } catch (error) {
    const { finding, others } = error as InputError;
    return [finding, ...others].map(({ args }) => (args as { what: Stated }).what);
  }
};

test('what was made of them agrees', () => {
  expect(disagreements(small, bankAtHand)).toEqual([]);
  expect(disagreements(template, tablesAtHand)).toEqual([]);
  expect(disagreements(template, new Map())).toEqual([]);
});

const edits: readonly (readonly [
  base: 'small' | 'template',
  path: readonly (string | number)[],
  value: Json | undefined,
  what: Stated,
])[] = [
  ['small', ['kept', 0, 'zone'], 77, 'zone'],
  ['small', ['kept', 0], undefined, 'zone'],
  ['small', ['kept', 0, 'key'], 'other', 'zone-name'],
  ['small', ['kept', 0, 'samples', 0], '9:Other', 'zone-samples'],
  ['small', ['kept', 0, 'samples'], [], 'zone-samples'],
  ['small', ['kept', 0, 'articulations'], [1], 'zone-articulations'],
  ['small', ['samples'], 5, 'samples'],
  ['small', ['zones'], 5, 'zones'],
  ['small', ['bytes', 'unknownSamples'], 1, 'samples-unknown'],
  ['small', ['presetZones', 0], 77, 'preset-zone'],
  ['small', ['presetZones'], [], 'zone-entry'],
  ['small', ['articulations', 0, 'name'], '0:1 Other', 'articulation'],
  ['small', ['articulations', 0, 'switch'], null, 'articulation-switch'],
  ['small', ['articulations', 0, 'layers', 0, 'zones'], 1, 'layer-zones'],
  ['small', ['articulations', 0, 'layers'], [], 'layers'],
  ['small', ['articulations', 1], undefined, 'articulations'],
  ['template', ['presetZones'], [1], 'preset-zone'],
  ['template', ['dropped', 0, 'key'], 'other', 'zone-name'],
];

test.each(edits)('%s: %j is %j', (base, path, value, what) => {
  const [plan, atHand] = base === 'small' ? [small, bankAtHand] : [template, tablesAtHand];
  const index = plan.instruments.length - 1;
  const edited = changed(
    plan as unknown as Json,
    ['instruments', index, ...path],
    value,
  ) as unknown as Plan;
  expect(disagreements(edited, atHand), kindOf(path)).toContain(what);
});

test('another definition, or another preset, is left aside', () => {
  const [one] = small.instruments;
  const other = { ...one!, zones: 77 };
  const of = (edited: Partial<typeof other>): Plan => ({
    ...small,
    instruments: [{ ...other, ...edited }],
  });
  expect(disagreements(of({}), bankAtHand)).toEqual(['zones']);
  expect(disagreements(of({ sha256: 'f'.repeat(64) }), bankAtHand)).toEqual([]);
  expect(disagreements(of({ source: 'bank.sf2#0:48' }), bankAtHand)).toEqual([]);
  expect(disagreements(of({ source: 'elsewhere/bank.sf2' }), bankAtHand)).toEqual(['zones']);
});
