import { expect, test } from 'vitest';
import { findingCodes, messageOf, withMessages } from '../../src/report/messages.ts';
import { doubtWords } from '../../src/report/messages/doubts.ts';
import { doubtNames } from '../../src/terms/doubt.ts';
import { finding, type Finding, type FindingCode } from '../../src/terms/finding.ts';
import { exampleArgs } from './fixtures/findings.ts';

const example = (code: FindingCode): Finding =>
  finding('warning', code, 'cues/1m1.mid', exampleArgs[code] as never);

test('every code has words and an example', () => {
  expect([...findingCodes].sort()).toEqual(Object.keys(exampleArgs).sort());
});

test.each(findingCodes)('%s says what it is and what to do in whole sentences', (code) => {
  const { message, hint } = messageOf(example(code));
  expect(message).toMatch(/^[A-Z0-9].*[.]$/su);
  expect(hint).toMatch(/^[A-Z].*[.?]$/su);
  expect(`${message} ${hint}`).not.toMatch(/undefined|null|NaN|\[object|\n| {2}/u);
});

/** Words that mean nothing to a person who does not program. */
const jargon =
  /\b(parse|parsing|buffer|payload|offset|exception|stack|null|byte array|stderr|stdout|VLQ|EOF|invalid|illegal|malformed|corrupt|fatal|abort)/iu;

test.each(findingCodes)('%s blames nobody and speaks plainly', (code) => {
  const { message, hint } = messageOf(example(code));
  expect(`${message} ${hint}`).not.toMatch(jargon);
});

/** The figures and names a person needs; asserted by value, not by sentence. */
test.each([
  ['chunk-cut', ['MTrk', '4 000 bytes', '1 203']],
  ['tracks-missing', ['5 tracks', '1']],
  ['track-data-byte', ['0xc0']],
  ['track-status', ['0xf4']],
  ['port-odd', ['201']],
  ['meta-length', ['A meter', '2 bytes', '4']],
  ['output-unwritable', ['the disk is full']],
  ['cue-versions', ['1m2', 'v3, v4']],
  ['bank-version', ['3.00']],
  ['bank-too-large', ['4 000 001 entries']],
  ['preset-missing', ['0:12', '0:13 Xylophone or 0:11 Vibes']],
] as const)('%s tells %j', (code, parts) => {
  const { message, hint } = messageOf(example(code));
  for (const part of parts) expect(`${message} ${hint}`).toContain(part);
});

test('of an articulation without a size the part is named where the rest has one', () => {
  const say = (parts: readonly string[]): string => {
    const articulations = parts.map((_, i) => `a${String(i)}`);
    const args = { articulations, parts, more: 0 };
    const { message, hint } = messageOf(finding('warning', 'outline-size-unknown', null, args));
    return `${message} ${hint}`;
  };
  expect(say(['', 'legato', 'release legato'])).toContain(
    'a0, a1 (transitions), a2 (releases and transitions).',
  );
  expect(say([''])).toContain('measured: 420 MiB');
  expect(say([''])).not.toContain('seconds');
  expect(say(['legato'])).toContain('seconds: 0.6');
  expect(say(['legato'])).not.toContain('420 MiB');
});

test('one and many', () => {
  const say = (times: number): string =>
    messageOf(finding('note', 'running-status-after-meta', null, { times })).message;
  expect(say(1)).toContain('1 event after a text or a system message leaves out');
  expect(say(14)).toContain('14 events after a text or a system message leave out');
});

test('what is too short was skipped, what is too long was cut', () => {
  const say = (length: number): string =>
    messageOf(finding('note', 'meta-length', null, { type: 0x51, length, expected: 3 })).message;
  expect(say(2)).toContain('it was skipped');
  expect(say(4)).toContain('what is too much was skipped');
});

const isTexts = (value: unknown): boolean =>
  Array.isArray(value) && value.some((item) => typeof item === 'string');

test.each(findingCodes)('%s lets no name from a file act on the terminal', (code) => {
  const hostile = '\u001b[2J\u202e\n';
  const args = Object.fromEntries(
    Object.entries(exampleArgs[code]).map(([key, value]) => [
      key,
      typeof value === 'string' ? hostile : isTexts(value) ? [hostile, hostile] : value,
    ]),
  );
  const { message, hint } = messageOf(finding('error', code, hostile, args as never));
  expect(`${message}${hint}`).not.toMatch(/[\p{Cc}\p{Cf}]/u);
});

test('findings keep their place in a result and gain their words', () => {
  const found = example('track-truncated');
  const result = withMessages({ schema: 'x', findings: [found], last: 1 });
  expect(Object.keys(result)).toEqual(['schema', 'findings', 'last']);
  expect(result.findings).toEqual([{ ...found, ...messageOf(found) }]);
  expect(Object.keys(result.findings[0] ?? {})).toEqual([
    'code',
    'severity',
    'file',
    'at',
    'args',
    'message',
    'hint',
  ]);
});

test('every doubt has words short enough for a table of 80 columns', () => {
  expect(Object.keys(doubtWords)).toEqual([...doubtNames]);
  for (const text of Object.values(doubtWords)) expect(text.length).toBeLessThanOrEqual(38);
});
