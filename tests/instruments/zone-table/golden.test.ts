import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { zoneTable } from '../../../src/instruments/zone-table/read.ts';
import { plainColors } from '../../../src/report/colors.ts';
import { formatError, formatFinding } from '../../../src/report/error-text.ts';
import { tableExamples } from '../../report/fixtures/table-findings.ts';

/**
 * A folder for each case: `table.csv`, and in `expected.txt` what the terminal prints about it. A new
 * folder fails with the text to put there, once somebody has read it.
 */
const folder = fileURLToPath(new URL('../../fixtures/table/', import.meta.url));
const cases = readdirSync(folder).sort();
const look = { colors: plainColors, width: null };

const printed = (name: string): string => {
  try {
    const bytes = readFileSync(`${folder}${name}/table.csv`);
    const { findings } = zoneTable(bytes, 'table.csv', 4, () => '');
    return findings.map((found) => formatFinding(found, look)).join('\n');
  } catch (error) {
    return formatError(error, look);
  }
};

test.each(cases)('%s', (name) => {
  const path = `${folder}${name}/expected.txt`;
  const expected = existsSync(path) ? readFileSync(path, 'utf8') : '';
  expect(`${printed(name)}\n`).toBe(expected);
});

test('every finding has a case, but for what would take a file of 64 MiB', () => {
  const all = cases.map(printed).join('\n');
  const without = Object.keys(tableExamples).filter((code) => !all.includes(`[${code}]`));
  expect(without).toEqual(['table-too-large']);
});

test('nothing is printed about a table without faults', () => {
  expect(printed('right')).toBe('');
});
