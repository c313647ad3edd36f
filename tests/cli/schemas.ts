import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect } from 'vitest';
import type { Diff } from '../../src/keep/compare/diff.ts';
import type { Check } from '../../src/keep/check/check.ts';
import type { Plan } from '../../src/keep/plan.ts';
import type { ReelMemory } from '../../src/keep/reel/reel-memory.ts';
import type { Why } from '../../src/keep/why/why.ts';
import type { Overview } from '../../src/overview/overview.ts';
import type { NoteUsage } from '../../src/playback/note-usage.ts';
import type { ErrorReport } from '../../src/report/json.ts';
import type { Primer, PrimerVerification } from '../../src/primer/primer.ts';
import type { Trim } from '../../src/trim/trim.ts';
import type { Worklist } from '../../src/trim/worklist/worklist.ts';

export interface Documents {
  'plan@1': Plan;
  'check@1': Check;
  'diff@1': Diff;
  'memory@1': ReelMemory;
  'trim@1': Trim;
  'primer@1': Primer;
  'primer-verification@1': PrimerVerification;
  'usage@1': NoteUsage;
  'why@1': Why;
  'worklist@1': Worklist;
  'report@1': Overview;
  'error@1': ErrorReport;
}

/** Reads a text that is one JSON document of a kind and nothing else, and holds it against its schema. */
export const document = <Name extends keyof Documents>(
  text: string,
  name: Name,
): Documents[Name] => {
  const path = new URL(`../../src/report/schemas/${name}.json`, import.meta.url);
  const schema = JSON.parse(readFileSync(path, 'utf8')) as object;
  const validate = new Ajv2020({
    strict: true,
    strictTuples: false,
    allowUnionTypes: true,
  }).compile(schema);
  const value: unknown = JSON.parse(text);
  validate(value);
  expect(validate.errors).toBeNull();
  expect(text.endsWith('}\n')).toBe(true);
  return value as Documents[Name];
};
