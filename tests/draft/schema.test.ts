import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import type { Draft } from '../../src/draft/draft.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { draft } from '../../src/jobs/draft.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { cueOf } from './track-file.ts';

const schema = JSON.parse(
  readFileSync(new URL('../../src/report/schemas/draft@1.json', import.meta.url), 'utf8'),
) as object;
const validate = new Ajv2020({
  strict: true,
  strictTuples: false,
  allowUnionTypes: true,
}).compile(schema);

const result = (): Promise<Draft> =>
  draft({
    cues: ['cues'],
    files: new MemoryFiles({
      'cues/1m1.mid': cueOf([{ name: 'Vc leg' }, { name: null, port: 128 }, { name: 'Click' }]),
      'cues/1m2.mid': 'not a cue',
    }),
  });

const asJson = (value: Draft): Record<string, unknown> =>
  JSON.parse(toJson(withMessages(value))) as Record<string, unknown>;

test('the result fits draft@1', async () => {
  const json = asJson(await result());
  validate(json);
  expect(validate.errors).toBeNull();
  expect(json['findings']).toMatchObject([{ code: 'midi-not-a-midi-file' }]);
});

const without = (value: object, key: string): object =>
  Object.fromEntries(Object.entries(value).filter(([other]) => other !== key));

test('and nothing else does: each key is needed, and no other is there', async () => {
  const made = await result();
  const json = asJson(made);
  const [group = {}] = made.groups;
  const groups = (one: object): object => ({ ...json, groups: [one] });
  expect(validate(groups(group))).toBe(true);
  for (const key of Object.keys(json)) expect(validate(without(json, key)), key).toBe(false);
  for (const key of Object.keys(group)) {
    expect(validate(groups(without(group, key))), `group: ${key}`).toBe(false);
  }
  expect(validate({ ...json, more: 1 })).toBe(false);
  expect(validate(groups({ ...group, more: 1 }))).toBe(false);
  expect(validate(groups({ ...group, channels: [0] }))).toBe(false);
});
