import { readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { errorReport, toJson } from '../../src/report/json.ts';
import { findingCodes, withMessages } from '../../src/report/messages.ts';
import { doubtNames } from '../../src/terms/doubt.ts';
import { inputError, TemplateError, UsageError } from '../../src/terms/errors.ts';
import { finding } from '../../src/terms/finding.ts';
import {
  halfDoneCheck,
  missingCheck,
  missingUnprovedCheck,
  provedCheck,
} from './fixtures/check.ts';
import { diff, diffWithoutBytes } from './fixtures/diff.ts';
import { exampleArgs } from './fixtures/findings.ts';
import { bankInspection, tableInspection } from './fixtures/inspection.ts';
import {
  comparedMemory,
  cueMemory,
  groupedMemory,
  nothingNeeded,
  placedMemory,
  reelMemory,
  singleMemory,
} from './fixtures/memory.ts';
import { missingOverview, overview, wholeOverview } from './fixtures/overview.ts';
import { plan } from './fixtures/plan.ts';
import { brokenPrimer, primer, verifiedPrimer } from './fixtures/primer.ts';
import { templatePlan } from './fixtures/template-plan.ts';
import { dryTrim, trim } from './fixtures/trim.ts';
import { usage } from './fixtures/usage.ts';
import { zoneUsage } from './fixtures/zone-usage.ts';
import { why, wholeWhy } from './fixtures/why.ts';
import { newWorklist, worklist } from './fixtures/worklist.ts';

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const schemaOf = (name: string): Record<string, Json> =>
  JSON.parse(
    readFileSync(new URL(`../../src/report/schemas/${name}.json`, import.meta.url), 'utf8'),
  ) as Record<string, Json>;

const validator = (name: string): ValidateFunction =>
  new Ajv2020({ strict: true, strictTuples: false, allowUnionTypes: true }).compile(schemaOf(name));

const json = (value: unknown): Json => JSON.parse(toJson(value)) as Json;

/** Every finding there is, so that what each carries is checked too. */
const findings = findingCodes.map((code) =>
  finding('warning', code, 'cues/1m1.mid', exampleArgs[code] as never, { line: 3, column: 7 }),
);

/** With all that may be asked for. */
const wholeMemory = {
  ...groupedMemory,
  cue: cueMemory.cue,
  placement: placedMemory.placement,
  comparison: comparedMemory.comparison,
};

const documents = [
  ['plan@1', json(withMessages({ ...plan, findings: [...plan.findings, ...findings] }))],
  ['plan@1', json(withMessages(templatePlan))],
  ['usage@1', json(withMessages({ ...usage, findings: [...usage.findings, ...findings] }))],
  ['zone-usage@1', json(withMessages({ ...zoneUsage, findings }))],
  ['inspect@1', json(withMessages({ ...bankInspection, findings }))],
  ['inspect@1', json(withMessages(tableInspection))],
  ['check@1', json(withMessages({ ...missingUnprovedCheck, findings }))],
  ['check@1', json(withMessages(provedCheck))],
  ['check@1', json(withMessages(halfDoneCheck))],
  ['diff@1', json(withMessages({ ...diff, findings }))],
  ['diff@1', json(withMessages(diffWithoutBytes))],
  ['trim@1', json(withMessages({ ...trim, findings: [...trim.findings, ...findings] }))],
  ['trim@1', json(withMessages(dryTrim))],
  ['primer@1', json(withMessages({ ...primer, findings }))],
  ['primer-verification@1', json(withMessages({ ...brokenPrimer, findings }))],
  ['primer-verification@1', json(withMessages(verifiedPrimer))],
  ['why@1', json(withMessages({ ...why, findings }))],
  ['why@1', json(withMessages(wholeWhy))],
  ['memory@1', json(withMessages({ ...wholeMemory, findings }))],
  ['memory@1', json(withMessages(reelMemory))],
  ['memory@1', json(withMessages(singleMemory))],
  ['memory@1', json(withMessages(nothingNeeded))],
  ['worklist@1', json(withMessages({ ...worklist, findings }))],
  ['worklist@1', json(withMessages(newWorklist))],
  ['report@1', json(withMessages({ ...wholeOverview, findings }))],
  ['report@1', json(withMessages(missingOverview))],
  ['report@1', json(withMessages(overview))],
  ['error@1', json(errorReport(inputError('midi-empty', 'cues/1m1.mid', {})))],
  ['error@1', json(errorReport(new UsageError('Which cues?')))],
  ['error@1', json(errorReport(new Error('boom')))],
  ['error@1', json(errorReport(new TemplateError(findings[0]!, findings.slice(1))))],
] as const;

test.each(documents)('what is written fits %s', (name, document) => {
  const validate = validator(name);
  validate(document);
  expect(validate.errors).toBeNull();
});

/** Objects whose keys are names from the input or settings that may be left out. */
const open = /\/(args|cues|settle|at|budgets)$/u;

/** Figures that may be below zero. */
const signed =
  /^\/(comparison\/rows\/error|(?:machines|worklist)\/(?:actions|unlisted)\/frees) is negative$/u;

interface Change {
  readonly what: string;
  readonly document: Json;
}

/** Each copy of `value` in which one thing is not as it should be, once for each place in the shape. */
const changes = (value: Json, path = '', seen = new Set<string>()): readonly Change[] => {
  if (Array.isArray(value)) {
    return (value as readonly Json[]).flatMap((item, i) =>
      changes(item, path, seen).map(({ what, document }) => ({
        what,
        document: (value as readonly Json[]).with(i, document),
      })),
    );
  }
  if (typeof value === 'number') {
    return once(seen, `${path} is text`, String(value)).concat(
      once(seen, `${path} is negative`, -1 - value),
    );
  }
  if (value === null || typeof value !== 'object') return [];
  const fields = value as Readonly<Record<string, Json>>;
  const inner = Object.entries(fields).flatMap(([key, field]) =>
    changes(field, `${path}/${key}`, seen).map(({ what, document }) => ({
      what,
      document: { ...fields, [key]: document },
    })),
  );
  if (open.test(path) && !Array.isArray(value)) return inner;
  return [
    ...inner,
    ...once(seen, `${path} has an unknown key`, { ...fields, unknown: 1 }),
    ...Object.keys(fields).flatMap((key) =>
      once(
        seen,
        `${path}/${key} is missing`,
        Object.fromEntries(Object.entries(fields).filter(([other]) => other !== key)),
      ),
    ),
  ];
};

const once = (seen: Set<string>, what: string, document: Json): Change[] => {
  if (seen.has(what)) return [];
  seen.add(what);
  return [{ what, document }];
};

describe.each([
  ['plan@1', json(withMessages(plan))],
  ['plan@1', json(withMessages(templatePlan))],
  ['usage@1', json(withMessages(usage))],
  ['inspect@1', json(withMessages(bankInspection))],
  ['inspect@1', json(withMessages(tableInspection))],
  ['check@1', json(withMessages({ ...missingCheck, loaded: halfDoneCheck.loaded }))],
  ['diff@1', json(withMessages(diff))],
  ['trim@1', json(withMessages(trim))],
  ['primer@1', json(withMessages({ ...primer, findings: findings.slice(0, 1) }))],
  [
    'primer-verification@1',
    json(withMessages({ ...brokenPrimer, findings: findings.slice(0, 1) })),
  ],
  ['why@1', json(withMessages(why))],
  ['memory@1', json(withMessages(wholeMemory))],
  ['worklist@1', json(withMessages({ ...worklist, findings: findings.slice(0, 1) }))],
  ['report@1', json(withMessages({ ...wholeOverview, findings: findings.slice(0, 1) }))],
  ['error@1', json(errorReport(new TemplateError(findings[0]!, findings.slice(1, 2))))],
] as const)('%s is strict', (name, document) => {
  const validate = validator(name);
  // What a finding's message was made from is free, so numbers there may be anything. Most errors
  // come alone.
  const all = changes(document).filter(
    ({ what }) => !what.includes('/args/') && what !== '/more is missing' && !signed.test(what),
  );
  test.each(all)('when $what', ({ document: changed }) => {
    expect(validate(changed)).toBe(false);
  });
});

test.each([
  'usage@1',
  'zone-usage@1',
  'inspect@1',
  'check@1',
  'diff@1',
  'trim@1',
  'primer@1',
  'primer-verification@1',
  'why@1',
  'memory@1',
  'worklist@1',
  'report@1',
])('what %s shares with the plan means the same', (name) => {
  const [one, two] = [schemaOf('plan@1')['$defs'], schemaOf(name)['$defs']] as [
    Record<string, Json>,
    Record<string, Json>,
  ];
  const shared = Object.keys(one).filter((key) => key in two);
  expect(shared).toContain('finding');
  for (const key of shared) expect(two[key]).toEqual(one[key]);
});

test('the schema knows every doubt and no other', () => {
  const definitions = schemaOf('plan@1')['$defs'] as Record<string, Record<string, Json>>;
  expect(definitions['doubt']?.['enum']).toEqual([...doubtNames]);
});

test('unknown words are refused', () => {
  const validate = validator('plan@1');
  const [first] = plan.doubts;
  expect(validate(json(withMessages({ ...plan, doubts: [{ ...first, name: 'hunch' }] })))).toBe(
    false,
  );
  expect(validate(json(withMessages({ ...plan, schema: 'keepset/plan@2' })))).toBe(false);
  expect(validate(json({ ...plan }))).toBe(false);
});
