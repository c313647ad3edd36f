import { expect, test } from 'vitest';
import { pageAssets } from '../../../src/files/page-assets.ts';
import { pageBeginning, reportPage } from '../../../src/report/page/report-page.ts';
import { overviewOfSize } from './overview-of-size.ts';

const assets = await pageAssets();
const small = { instruments: 2, articulations: 2, rows: 3, cells: 8, cues: 3 };

/** What the page holds as data. */
const dataOf = (page: string): unknown =>
  JSON.parse(/<script type="application\/json" id=data>(.*?)<\/script>/s.exec(page)?.[1] ?? '');

/** The page without its data, its script and its style. */
const shownPart = (page: string): string =>
  page.replace(/<script.*?<\/script>/gs, '').replace(/<style>.*?<\/style>/s, '');

test('a page begins with the comment by which it is known again', () => {
  expect(reportPage(overviewOfSize(small), assets).startsWith(pageBeginning)).toBe(true);
});

test('the same overview gives the same page, and the page holds it whole', () => {
  const overview = overviewOfSize(small);
  const page = reportPage(overview, assets);
  expect(reportPage(overview, assets)).toBe(page);
  expect(dataOf(page)).toEqual(overview);
});

test.each([
  '</script><img src=x onerror=alert(1)>',
  '"><script>alert(1)</script>',
  "' onclick='alert(1)",
  '<!--<script>',
  '&lt;b&gt; & co',
  '\u202eevil\u2028\u2029\u0000',
  `${'x'.repeat(59)}<b>`,
])('a name stays text: %j', (name) => {
  const overview = overviewOfSize({ ...small, name });
  const page = reportPage(overview, assets);
  expect(dataOf(page)).toEqual(overview);
  expect(page.match(/<script/g)).toHaveLength(2);
  const shown = shownPart(page);
  expect(shown).not.toMatch(/<img|onerror=alert\(1\)>|<!--<script>|<b>(?!<bdi>|Proved|Not loaded)/);
  // Every quote of a name is written out: no attribute ends in it.
  expect(shown).not.toContain(`onclick='`);
  expect(shown).not.toMatch(/[\u0000\u202e\u2028\u2029]/);
});

test('its policy allows the two texts that it holds and nothing else', () => {
  const page = reportPage(overviewOfSize(small), assets);
  const style = /<style>(.*?)<\/style>/s.exec(page)?.[1] ?? '';
  const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1] ?? '';
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain(`script-src 'sha256-${assets.sha256Base64(assets.script)}'`);
  expect(policy).toContain(`style-src 'sha256-${assets.sha256Base64(style)}'`);
  expect(policy).not.toContain('unsafe');
  expect(shownPart(page)).not.toMatch(/ style=| on[a-z]+=/);
});

test('the digests of keep file and template are at the foot of each printed page', () => {
  const page = reportPage(overviewOfSize(small), assets);
  const [keep, template] = ['ab'.repeat(32), 'cd'.repeat(32)];
  expect(page).toContain(
    String.raw`@bottom-left{content:"keep file sha256 ${keep}\a template sha256 ${template}"}`,
  );
  // Whole once in the text; elsewhere the first figures stand for them.
  const body = shownPart(page);
  expect(body.split(keep)).toHaveLength(2);
  expect(body.split(template)).toHaveLength(2);
  expect(body.indexOf(`sha256 ${keep.slice(0, 12)}<`)).toBeLessThan(body.indexOf(keep));
});

test('an overview without cues, instruments and machines makes a page too', () => {
  const nothing = { ...overviewOfSize({ ...small, instruments: 0, cues: 0 }), actions: [] };
  const empty = { ...nothing, machines: [], worklist: [], doubts: [], doubtsAt: [], risks: [] };
  const page = reportPage(empty, assets);
  expect(page).toContain('There are no cues.');
  expect(shownPart(page)).not.toMatch(/NaN|Infinity|undefined/);
});
