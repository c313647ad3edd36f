import { expect, test } from 'vitest';
import { messageOf } from '../../src/report/messages.ts';
import { finding, type FindingArgs, type FindingCode } from '../../src/terms/finding.ts';
import { routeExamples } from '../report/fixtures/route-findings.ts';

const say = <Code extends FindingCode>(code: Code, args: FindingArgs[Code]): string => {
  const { message, hint } = messageOf(finding('error', code, 'keepset.yaml', args));
  return `${message} ${hint}`;
};

/** What a code inside a finding stands for must have words of its own: the bare code says nothing. */
test.each([
  'brace-open',
  'brace-close',
  'capture-empty',
  'capture-twice',
  'wildcards-touch',
  'too-long',
])('a pattern with %s', (problem) => {
  const text = say('route-pattern', { ...routeExamples['route-pattern'], problem });
  expect(text).toContain('"Vc {art"');
  expect(text).toContain('at character 4');
  expect(text).not.toContain(problem);
});

test.each(['quote-open', 'quote-inside', 'too-large', 'binary'])('a table with %s', (problem) => {
  expect(say('tracks-unreadable', { problem })).not.toContain(problem);
});

test.each(['controllers', 'yes-no', 'instruments', 'number'])('a cell for %s', (expects) => {
  const text = say('tracks-cell', { column: 'port', cell: 'two', expects });
  expect(text).toContain('"two" in the column port');
  expect(text).not.toContain('yes-no');
  expect(text).not.toContain('in another way');
});

test.each([
  ['port', 0, 1, 128, 'from 1 to 128'],
  ['channel', 17, 1, 16, 'from 1 to 16'],
  ['transpose', -200, -127, 127, 'from -127 to 127'],
  ['velocity', 0, 0, 10, 'above 0 and at most 10'],
  ['controllers', 128, 0, 127, 'from 0 to 127'],
])('a number for %s', (field, value, lo, hi, range) => {
  const text = say('route-number', { field, value, lo, hi });
  expect(text).toContain(`is ${String(value)}; it has to be ${range}.`);
  expect(text).not.toContain('in that range');
});

test('fields are called as in the file', () => {
  const rule = 'track "a"';
  expect(say('route-ignore-and', { rule, field: 'instruments' })).toContain('has instrument as');
  expect(say('route-ignore-and', { rule, field: 'joinWord' })).toContain('has join as');
});

test('long patterns are cut', () => {
  const pattern = 'x'.repeat(600);
  const text = say('route-pattern', {
    field: 'tracks',
    pattern,
    problem: 'too-long',
    column: 501,
  });
  expect(text).toContain(`"${'x'.repeat(79)}…"`);
});

test('one and many, none and several', () => {
  const { tracks, ...rest } = routeExamples['part-unmapped'];
  expect(say('part-unmapped', { ...rest, tracks, notes: 1 })).toContain('1 note on 2 tracks');
  const many = Array.from({ length: 20 }, (_, i) => `Hn ${String(i)}`);
  expect(say('part-unmapped', { ...rest, tracks: many })).toContain('Hn 7 and 12 more');
  const missing = routeExamples['route-articulation'];
  expect(say('route-articulation', missing)).toContain('Did you mean staccato?');
  expect(say('route-articulation', { ...missing, near: null })).toContain('under names');
  expect(say('route-articulation', { ...missing, matches: 2, near: null })).toContain(
    'any of 2 articulations',
  );
  expect(say('rows-unused', { rows: 1, of: 1, first: ['a'] })).toContain('another template');
  expect(say('tracks-headings-unknown', { headings: ['Colour'], more: 0 })).toContain(
    '1 column of the table of tracks means nothing',
  );
});
