import { expect, test } from 'vitest';
import { plainColors, type Colors } from '../../src/report/colors.ts';
import { formatError, formatFinding, whereOf } from '../../src/report/error-text.ts';
import { messageOf } from '../../src/report/messages.ts';
import { inputError, InputError, TemplateError, UsageError } from '../../src/terms/errors.ts';
import { finding, type Place } from '../../src/terms/finding.ts';

const plain = { colors: plainColors, width: null };

test('a finding says what, where and what to do', () => {
  const at = { track: 3, tick: 21_600, bar: 12, beat: 2, byte: 0x1a4 };
  const found = finding('warning', 'track-truncated', 'cues/1m1.mid', {}, at);
  const { message, hint } = messageOf(found);
  expect(formatFinding(found, plain)).toBe(
    [
      `warning[track-truncated]: ${message}`,
      '  --> cues/1m1.mid (track 3, bar 12 beat 2, byte 0x1a4)',
      `  hint: ${hint}`,
    ].join('\n'),
  );
});

test.each<[string | null, Place | null, string | null]>([
  [null, null, null],
  ['a.mid', null, 'a.mid'],
  ['a.mid', {}, 'a.mid'],
  ['a.mid', { tick: 480 }, 'a.mid (tick 480)'],
  ['a.mid', { bar: 3, tick: 480 }, 'a.mid (bar 3)'],
  ['a.mid', { bar: 3, beat: 2.5 }, 'a.mid (bar 3 beat 2.5)'],
  ['a.mid', { byte: 0 }, 'a.mid (byte 0x0)'],
  ['a.mid', { track: 0 }, 'a.mid (track 0)'],
  ['a.yaml', { line: 3, column: 7 }, 'a.yaml:3:7'],
  ['a.yaml', { line: 3 }, 'a.yaml:3'],
  [null, { track: 1 }, 'track 1'],
  ['\u001b]0;x\u0007.mid', null, '\\x1b]0;x\\x07.mid'],
])('%j at %j is %j', (file, at, where) => {
  expect(whereOf({ file, at })).toBe(where);
});

test('a finding about the whole run has no place', () => {
  const found = finding('note', 'nothing-saved', null, {});
  expect(formatFinding(found, plain)).not.toContain('-->');
});

test('what is said is set to the width, what can be copied is not', () => {
  const file = 'cues/a folder with a very long name/1m1 Harbour at night v3.mid';
  const found = finding('warning', 'track-truncated', file, {}, { track: 3 });
  const text = formatFinding(found, { ...plain, width: 50 });
  const [first = '', ...others] = text.split('\n');
  expect(first.startsWith('warning[track-truncated]: ')).toBe(true);
  expect(others).toContain(`  --> ${file} (track 3)`);
  for (const line of text.split('\n').filter((one) => !one.includes('-->'))) {
    expect(line.length).toBeLessThanOrEqual(50);
  }
  const said = (of: string): string => of.replace(/\s+/gu, ' ');
  expect(said(text)).toBe(said(formatFinding(found, plain)));
  expect(others.filter((line) => line.startsWith('    ')).length).toBeGreaterThan(0);
});

test('severity is a word first and a colour second', () => {
  const tag =
    (color: string) =>
    (text: string): string =>
      `<${color}>${text}</>`;
  const colors: Colors = {
    bold: tag('bold'),
    dim: tag('dim'),
    red: tag('red'),
    green: tag('green'),
    yellow: tag('yellow'),
    cyan: tag('cyan'),
  };
  const first = (severity: 'error' | 'warning' | 'note'): string =>
    formatFinding(finding(severity, 'nothing-saved', null, {}), { colors, width: null }).split(
      ':',
    )[0] ?? '';
  expect(first('error')).toBe('<bold><red>error[nothing-saved]</></>');
  expect(first('warning')).toBe('<bold><yellow>warning[nothing-saved]</></>');
  expect(first('note')).toBe('<bold><cyan>note[nothing-saved]</></>');
});

test('an error about the input reads like its finding', () => {
  const error = inputError('midi-empty', 'cues/1m1.mid', {});
  expect(formatError(error, plain)).toBe(formatFinding(error.finding, plain));
});

test.each([InputError, TemplateError])('all faults of a file are told at once: %o', (Stop) => {
  const at = (line: number): Place => ({ line, column: 3 });
  const first = finding('error', 'midi-empty', 'keepset.yaml', {}, at(4));
  const others = [
    finding('error', 'track-status', 'keepset.yaml', { status: 0xf4 }, at(9)),
    finding('warning', 'midi-no-tracks', 'tracks.csv', {}, at(2)),
  ];
  const text = formatError(new Stop(first, others), plain);
  expect(text).toBe([first, ...others].map((one) => formatFinding(one, plain)).join('\n'));
  expect(text.match(/^(?:error|warning)\[.*?\]|--> .*$/gmu)).toEqual([
    ...['error[midi-empty]', '--> keepset.yaml:4:3'],
    ...['error[track-status]', '--> keepset.yaml:9:3'],
    ...['warning[midi-no-tracks]', '--> tracks.csv:2:3'],
  ]);
});

test('a wrong command says what to do instead', () => {
  expect(
    formatError(new UsageError('There is no command "trm".', 'Did you mean trim?'), plain),
  ).toBe('error[usage]: There is no command "trm".\n  hint: Did you mean trim?');
  expect(formatError(new UsageError('Two templates are given.'), plain)).toBe(
    'error[usage]: Two templates are given.',
  );
});

test.each([new TypeError('x is not a function'), 'a string', null])(
  'anything else is a fault of the program: %s',
  (error) => {
    const text = formatError(error, plain);
    expect(text).toMatch(/^error\[internal\]: /u);
    expect(text).toContain('report');
    expect(text).not.toContain('    at ');
  },
);

test('arguments of the command line are made printable', () => {
  expect(formatError(new UsageError('No \u001b[31m.', '\u202e'), plain)).toBe(
    'error[usage]: No \\x1b[31m.\n  hint: \\u202e',
  );
});
