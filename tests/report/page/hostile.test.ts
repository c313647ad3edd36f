import { expect, test } from 'vitest';
import type { Overview } from '../../../src/overview/overview.ts';
import { reportPage } from '../../../src/report/page/report-page.ts';
import { hostileOverview, missingOverview } from '../fixtures/overview.ts';

const page = (overview: Overview): string =>
  reportPage(overview, { script: '', style: '', sha256Base64: () => '' });

/** How often each tag begins, with the names of its attributes. */
const tags = (html: string): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  for (const [tag] of html.matchAll(/<[a-z!/][^>]*/gi)) {
    const shape = tag.replace(/"[^"]*"/g, '""').replace(/=[^\s">]+/g, '=');
    found.set(shape, (found.get(shape) ?? 0) + 1);
  }
  return found;
};

test('names that are markup make no element, no attribute and no comment', () => {
  expect([...tags(page(hostileOverview)).keys()].sort()).toEqual(
    [...tags(page(missingOverview)).keys()].sort(),
  );
});
