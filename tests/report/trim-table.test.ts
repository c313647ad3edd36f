import { describe, expect, test } from 'vitest';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { trimTable, type TrimNames } from '../../src/report/trim-table.ts';
import { finding } from '../../src/terms/finding.ts';
import type { Trim } from '../../src/trim/trim.ts';
import { hostileNames } from './fixtures/names.ts';
import { acceptedTrim, dryTrim, trim, unmetTrim } from './fixtures/trim.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };
const names: TrimNames = { out: 'small/', keep: 'keep.json' };
const hostileName: TrimNames = { out: hostileNames[0], keep: hostileNames[2] };

/** Names as a stranger's file may hold them. */
const hostile: Trim = {
  ...trim,
  accepted: { damage: hostileNames, partial: hostileNames, unmapped: true },
  instruments: hostileNames.map((name, i) => ({
    ...trim.instruments[i % trim.instruments.length]!,
    id: name,
    machine: hostileNames.at(-i)!,
    source: name,
    path: i % 2 === 0 ? name : null,
    places: i,
  })),
  files: hostileNames.map((path) => ({ path, bytes: 1, sha256: null })),
};

/** More instruments than a window has lines, every one with its places. */
const large: Trim = {
  ...trim,
  instruments: Array.from({ length: 150 }, (_, i) => ({
    ...trim.instruments[0]!,
    id: `horns-${String(i)}`,
    places: i,
  })),
};

const goldens = [
  ['trim-wide', trim, names, wide],
  ['trim-80', trim, names, { ...wide, width: 80 }],
  ['trim-60-ascii', trim, names, { ...wide, width: 60, ascii: true }],
  ['trim-dry-80', dryTrim, { ...names, keep: 'keep 2.json' }, { ...wide, width: 80 }],
  ['trim-accepted-80', acceptedTrim, names, { ...wide, width: 80 }],
  ['trim-unmet-80', unmetTrim, names, { ...wide, width: 80 }],
  ['trim-hostile-100', hostile, hostileName, { ...wide, width: 100 }],
] as const;

test.each(goldens)('%s', async (name, which, named, look) => {
  await expect(trimTable(which, named, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe.each([
  ['usual', trim],
  ['dry', dryTrim],
  ['accepted', acceptedTrim],
  ['hostile', hostile],
  ['large', large],
] as const)('the %s result', (_, which) => {
  test.each([48, 60, 72, 80, 96, 100, 120, 160, 200])('keeps inside %d columns', (width) => {
    for (const ascii of [false, true]) {
      for (const line of trimTable(which, names, { ...wide, ascii, width }).split('\n')) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    for (const width of [null, 80]) {
      const text = trimTable(which, hostileName, { ...wide, width }).replaceAll('\n', '');
      expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
  });
});

test('in ASCII the report itself is ASCII', () => {
  for (const width of [null, 80, 48]) {
    expect(trimTable(trim, names, { ...wide, ascii: true, width })).toMatch(/^[\x20-\x7e\n]*$/u);
  }
});

const firstLine = (which: Trim): string => trimTable(which, names, wide).split('\n')[0] ?? '';

describe('the first line', () => {
  test('tells what was written and proved', () => {
    expect(firstLine(trim)).toBe('Written and played: 9 cues, 4 213 notes find all they need.');
  });

  test('says what nothing was written means', () => {
    expect(firstLine(dryTrim)).toBe('Nothing was written: this is what trim would write.');
    const none = { ...trim, instruments: trim.instruments.slice(3), proof: null };
    expect(firstLine(none)).toBe('Nothing was written: there is nothing to write.');
    expect(firstLine({ ...none, dryRun: true })).toContain('there is nothing to write');
  });

  test('makes less of it where something was accepted', () => {
    const { accepted } = trim;
    for (const some of [{ damage: ['1m1'] }, { partial: ['1m1'] }, { unmapped: true }]) {
      const line = firstLine({ ...trim, accepted: { ...accepted, ...some } });
      expect(line).toMatch(/^Written on your word, .* all that is known of what they need\.$/);
    }
  });
});

/** Words for a thing that was held against the full instruments. */
const claims = /\bproved\b|\bplayed:|finds? all|Point the player/u;

test.each([
  ['with an error', unmetTrim],
  ['with an error in a dry run', { ...unmetTrim, dryRun: true, proof: null }],
  ['unplayed', { ...trim, proof: null }],
  ['dry', dryTrim],
] as const)('%s nothing is called proved, and nobody is sent to use it', (_, which) => {
  const text = trimTable(which, names, wide).replace(/NOT PROVED/u, '');
  expect(text).not.toMatch(claims);
  expect(text).toContain('Keep the full instruments somewhere safe');
});

test('a remark does not stand against the proof', () => {
  const findings = [
    finding('note', 'trim-more', 'banks/keys.sf2', { instrument: 'harp', zones: 1 }),
  ];
  expect(trimTable({ ...trim, findings }, names, wide)).toContain('What is proved');
});

test('a command to copy has the names as they are typed', () => {
  const named = { out: 'mix only', keep: '$(rm -r *).json' };
  const text = trimTable(trim, named, wide);
  expect(text).toContain('keepset plan --template "mix only/keepset.yaml" ');
  expect(text).toContain("keepset check new-cue.mid --keep '$(rm -r *).json'.");
  const seen = trimTable(trim, { ...named, template: 'my score/keepset.yaml' }, wide);
  expect(seen).toContain('.json\' --template "my score/keepset.yaml".');
});

test('one machine needs no column, nothing shared no sentence', () => {
  const own = trim.instruments.filter(({ machine }) => machine === 'a');
  const text = trimTable({ ...trim, instruments: own }, names, wide);
  expect(text).not.toContain('Machine');
  expect(text).not.toContain('share');
  expect(trimTable(trim, names, wide)).toMatch(/Machine[^]*share/u);
});
