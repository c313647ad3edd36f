import fc from 'fast-check';
import { expect, test } from 'vitest';
import { errorJson, errorReport, toJson } from '../../src/report/json.ts';
import { messageOf } from '../../src/report/messages.ts';
import { InputError, inputError, TemplateError, UsageError } from '../../src/terms/errors.ts';
import { finding, type Place } from '../../src/terms/finding.ts';

test('keys stay in the order they were made, two spaces a level, a newline at the end', () => {
  expect(toJson({ b: [1, 2], a: { z: null } })).toBe(
    '{\n  "b": [\n    1,\n    2\n  ],\n  "a": {\n    "z": null\n  }\n}\n',
  );
});

test('what is written reads back as the same', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      expect(JSON.parse(toJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
});

test('names from files act on no terminal and mean the same', () => {
  const name = '\u001b[2J \u009b31m \u202e \u2028 \u{e0041} é 琴';
  const text = toJson({ name });
  expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
  expect(text).toContain('é 琴');
  expect(JSON.parse(text)).toEqual({ name });
});

test.each([Number.NaN, Infinity, -Infinity])('%d is a fault, not null', (number) => {
  expect(() => toJson({ bytes: [number] })).toThrow(RangeError);
});

test('an error about the input begins with its place', () => {
  const error = inputError('track-truncated', 'cues/1m1.mid', {}, { byte: 16 });
  const { message, hint } = messageOf(error.finding);
  expect(errorReport(error)).toEqual({
    schema: 'keepset/error@1',
    error: {
      code: 'track-truncated',
      message: `cues/1m1.mid (byte 0x10): ${message}`,
      hint,
    },
  });
});

test.each([InputError, TemplateError])('further faults of a file follow: %o', (Stop) => {
  const at = (line: number): Place => ({ line, column: 3 });
  const first = finding('error', 'midi-empty', 'keepset.yaml', {}, at(4));
  const other = finding('error', 'midi-no-tracks', 'keepset.yaml', {}, at(9));
  const report = errorReport(new Stop(first, [other, first]));
  expect(Object.keys(report)).toEqual(['schema', 'error', 'more']);
  expect(report.error).toEqual(errorReport(new Stop(first)).error);
  expect(report.more).toEqual([other, first].map((one) => errorReport(new InputError(one)).error));
  expect(report.more?.[0]?.message).toMatch(/^keepset\.yaml:9:3: /u);
  expect(errorReport(new Stop(first))).not.toHaveProperty('more');
});

test('a wrong command, and a fault of the program', () => {
  expect(errorReport(new UsageError('Which cues?', 'Give a folder.')).error).toEqual({
    code: 'usage',
    message: 'Which cues?',
    hint: 'Give a folder.',
  });
  expect(errorReport(new Error('boom')).error.code).toBe('internal');
  expect(errorJson(new Error('boom'))).toBe(toJson(errorReport(new Error('boom'))));
});
