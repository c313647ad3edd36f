import { describe, expect, test } from 'vitest';
import type { Primer, PrimerVerification } from '../../src/primer/primer.ts';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { primerTable, type PrimerNames } from '../../src/report/primer-table.ts';
import { primerVerificationTable } from '../../src/report/primer-verification-table.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { finding } from '../../src/terms/finding.ts';
import { hostileNames } from './fixtures/names.ts';
import {
  brokenPrimer,
  lackingPrimer,
  primer,
  tiedPrimer,
  verifiedPrimer,
  wholePrimer,
} from './fixtures/primer.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };
const names: PrimerNames = { out: 'primer.mid', keep: 'keep.json' };
const hostileName: PrimerNames = { out: hostileNames[0], keep: hostileNames[2] };

/** Names as a stranger's file may hold them. */
const hostile: Primer = {
  ...primer,
  base: { cue: hostileNames[0], path: hostileNames[1] },
  machines: hostileNames.map((id, i) => ({
    ...primer.machines[i % 2]!,
    id,
    instruments: primer.machines[i % 2]!.instruments.map((one) => ({ ...one, id })),
  })),
  excerpts: hostileNames.map((cue) => ({ ...primer.excerpts[0]!, cue, instruments: [cue] })),
  notPrimed: hostileNames.map((key) => ({
    ...primer.notPrimed[0]!,
    instrument: key,
    copy: key,
    key,
  })),
  chances: hostileNames.map((instrument) => ({ ...primer.chances[0]!, instrument })),
  accepted: { damage: hostileNames, partial: hostileNames, unmapped: true },
  findings: hostileNames.map((track) =>
    finding('note', 'primer-track-added', 'keep.json', { track, cue: track }),
  ),
};

const hostileVerification: PrimerVerification = {
  ...brokenPrimer,
  file: hostileNames[0],
  instruments: hostileNames.map((id) => ({
    ...brokenPrimer.instruments[0]!,
    id,
    missing: hostileNames.map((key) => ({ zone: 1, key, copy: key })),
  })),
};

test.each([
  ['primer-wide', primer, names, wide],
  ['primer-80', primer, names, { ...wide, width: 80 }],
  ['primer-60-ascii', primer, names, { ...wide, width: 60, ascii: true }],
  ['primer-whole-80', wholePrimer, { ...names, template: 'my score.yaml' }, { ...wide, width: 80 }],
  ['primer-tied-80', tiedPrimer, names, { ...wide, width: 80 }],
  ['primer-hostile-100', hostile, hostileName, { ...wide, width: 100 }],
] as const)('%s', async (name, which, named, look) => {
  await expect(primerTable(which, named, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

test.each([
  ['primer-verified-80', verifiedPrimer],
  ['primer-broken-80', brokenPrimer],
  ['primer-lacking-80', lackingPrimer],
] as const)('%s', async (name, which) => {
  const text = primerVerificationTable(which, { ...wide, width: 80 });
  await expect(text).toMatchFileSnapshot(`${name}.golden.txt`);
});

const texts: readonly (readonly [string, (look: Look) => string])[] = [
  ['usual primer', (look) => primerTable(primer, names, look)],
  ['whole primer', (look) => primerTable(wholePrimer, names, look)],
  ['hostile primer', (look) => primerTable(hostile, names, look)],
  ['verification', (look) => primerVerificationTable(brokenPrimer, look)],
  ['hostile verification', (look) => primerVerificationTable(hostileVerification, look)],
];

describe.each(texts)('the %s', (_, shown) => {
  test.each([48, 60, 72, 80, 100, 160])('keeps inside %d columns', (width) => {
    for (const ascii of [false, true]) {
      for (const line of shown({ ...wide, ascii, width }).split('\n')) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    for (const width of [null, 80]) {
      const text = shown({ ...wide, width }).replaceAll('\n', '');
      expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
  });
});

test('in ASCII the report itself is ASCII', () => {
  for (const width of [null, 80, 48]) {
    const look = { ...wide, ascii: true, width };
    expect(primerTable(primer, names, look)).toMatch(/^[\x20-\x7e\n]*$/u);
    expect(primerVerificationTable(brokenPrimer, look)).toMatch(/^[\x20-\x7e\n]*$/u);
  }
});

test('the first line says whether all is loaded', () => {
  expect(primerTable(wholePrimer, names, wide)).toMatch(/^It loads all that stays: 3:36, /u);
  expect(primerTable(primer, names, wide)).toMatch(/^It loads all that stays but 113 zones: /u);
  expect(primerVerificationTable(verifiedPrimer, wide)).toMatch(/^Verified: again\.mid /u);
  const damaged = { ...verifiedPrimer, verdict: 'not-verified' as const };
  expect(primerVerificationTable(damaged, wide)).toMatch(/^! NOT VERIFIED: .* is damaged/u);
});

test('what no cue can play is not counted as lacking, in no line', () => {
  const text = primerTable(tiedPrimer, names, wide);
  expect(text).toMatch(/^It loads all that cues can ask for: /u);
  const row = text.split('\n').find((line) => line.startsWith('deck '))!;
  // Zones kept, by notes, by excerpts, not loaded, not needed.
  expect(row.split(/ {2,}/u).slice(1, 6)).toEqual(['20', '15', '0', '0', '5']);
  expect(text).not.toContain('Not loaded: play its cues');
});

test('the column of what is not loaded adds up to what the first line says', () => {
  const text = primerTable(primer, names, wide);
  const all = text.split('\n').find((line) => line.startsWith('In all '))!;
  expect(all.trim().split(/ {2,}/u).slice(1)).toEqual(['1 203', '1 081', '4', '113', '5']);
});

test('a track without a name is not told by its name', () => {
  const added = (...names: readonly string[]) =>
    primerTable(
      {
        ...primer,
        findings: names.map((track) =>
          finding('note', 'primer-track-added', 'keep.json', { track, cue: '1m3' }),
        ),
      },
      { out: 'primer.mid', keep: 'keep.json' },
      wide,
    );
  expect(added('')).toContain('- 1 track without a name, as in cue 1m3: put it where ');
  expect(added('', 'Ob')).toContain('- Ob: put it on the track of this name.');
  expect(added('', 'Ob')).not.toContain('(no name)');
});

test('a command to copy has the names as they are typed', () => {
  const text = primerTable(primer, { ...names, keep: '$(rm -r *).json' }, wide);
  expect(text).toContain("--keep '$(rm -r *).json' --verify FILE.mid");
});
