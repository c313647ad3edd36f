import { expect, test } from 'vitest';
import { markdownOf, reports } from './reports.ts';

test.each(reports.map((report) => [report.name, report] as const))('%s', async (name, report) => {
  await expect(markdownOf(report)).toMatchFileSnapshot(`goldens/${name}.golden.md`);
});
