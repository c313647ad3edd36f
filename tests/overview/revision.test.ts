import { beforeAll, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { check } from '../../src/jobs/check.ts';
import { plan } from '../../src/jobs/plan.ts';
import { page } from '../../src/jobs/report-page.ts';
import { report } from '../../src/jobs/report.ts';
import { worklist } from '../../src/jobs/worklist.ts';
import type { Check, Miss } from '../../src/keep/check/check.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import type { Worklist } from '../../src/trim/worklist/worklist.ts';

/** The demo's keep file with its revision, as the page, `check` and `worklist` tell of them. */
let overview: Overview;
let checked: Check;
let list: Worklist;
let html: string;

beforeAll(async () => {
  const content = Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes]));
  const keep = toJson(withMessages(await plan({ files: new MemoryFiles(content) })));
  const files = new MemoryFiles({ ...content, 'keep.json': keep });
  const revised = { files, keep: 'keep.json', cues: ['revisions'] };
  overview = await report(revised);
  checked = await check(revised);
  list = await worklist({ files, keep: 'keep.json' });
  html = await page(overview);
}, 300_000);

const isPlain = ({ doubts }: Miss): boolean => doubts.some(({ length }) => length === 0);

const text = (markup: string): string => markup.replace(/<[^>]*>/g, '').replaceAll('\u00a0', ' ');

test('the headline names the first note that asks as it stands, not one that may', () => {
  const ticks = (misses: readonly Miss[]): number[] =>
    misses.flatMap(({ places }) => places.map(({ tick }) => tick));
  const plain = ticks(checked.misses.filter(isPlain));
  const inDoubt = ticks(checked.misses.filter((one) => !isPlain(one)));
  // Else this demo would prove nothing.
  expect(Math.min(...inDoubt)).toBeLessThan(Math.min(...plain));
  const first = checked.misses
    .flatMap((one) => (isPlain(one) ? one.places : []))
    .find(({ tick }) => tick === Math.min(...plain))!;
  const headline = text(/<p class=v>.*?<\/p>/s.exec(html)![0]);
  expect(headline).toContain(
    `first at ${first.cue} bar ${String(first.bar)} beat ${String(Math.floor(first.beat))}, ${first.trackName!}.`,
  );
  const doubtful = checked.misses.filter((one) => !isPlain(one)).length;
  expect(headline).toContain(`${String(doubtful)} of them only in doubt`);
});

test('no step unloads what is missing unless it is marked, and none is marked for nothing', () => {
  const told = new Map(
    overview.worklist.flatMap(({ actions }) => actions.map((one) => [one.number, one.missed])),
  );
  const actions = list.machines.flatMap((machine) => machine.actions);
  expect(told.size).toBe(actions.length);
  const against = (action: (typeof actions)[number], misses: readonly Miss[]): boolean =>
    action.does === 'unload' &&
    misses.some(
      ({ instrument, zone, copy }) =>
        instrument === action.instrument &&
        action.zones.includes(zone) &&
        (copy === null || action.copy === null || copy === action.copy),
    );
  const plain = checked.misses.filter(isPlain);
  const marked = actions.map((action) =>
    against(action, plain) ? 'plain' : against(action, checked.misses) ? 'doubt' : null,
  );
  expect(marked.filter((one) => one !== null).length).toBeGreaterThan(0);
  expect(actions.map(({ number }) => told.get(number))).toEqual(marked);
  // None of them is told as a step that gives most.
  const most = overview.actions.flatMap(({ numbers }) => numbers);
  expect(most.filter((number) => told.get(number) !== null)).toEqual([]);
});

test('the worklist leads with the steps that are not to be done, and both sides are linked', () => {
  const section = /<section id=worklist.*?<\/section>/s.exec(html)![0];
  const missed = overview.worklist.flatMap(({ actions }) =>
    actions.flatMap((one) => (one.missed === null ? [] : [one.number])),
  );
  const first = /<p>.*?<\/p>/s.exec(section)![0];
  expect(text(first)).toContain(`Do not do steps ${missed.join(', ')}: 2m2 v2 needs`);
  const rows = [...section.matchAll(/<tr id="w(\d+)">(.*?)(?=<tr|<\/table>)/gs)];
  for (const [, number, row] of rows) {
    const isMissed = missed.includes(Number(number));
    expect(text(row!).includes('do not unload')).toBe(isMissed);
    expect(row!.includes('class=box')).toBe(!isMissed);
    if (!isMissed) continue;
    const target = /href="#(miss\d+)"/.exec(row!)![1]!;
    const told = new RegExp(`<tr id="${target}">(.*?)(?=<tr|</table>)`, 's').exec(html)![1]!;
    expect(told).toContain(`href="#w${number!}"`);
  }
});

test('a check of one cue says nothing of rules that the other cues may use', () => {
  const ofAll = ['route-unused', 'route-shadowed', 'join-idle', 'rows-unused'];
  expect(checked.findings.map(({ code }) => code).filter((one) => ofAll.includes(one))).toEqual([]);
});
