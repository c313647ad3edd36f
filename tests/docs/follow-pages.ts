import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { stepsOf, type CommandStep } from './page-steps.ts';
import { isUpdate, pages, projectFolder } from './pages.ts';
import { differenceOf, refilled } from './shown.ts';
import { makeDemo } from './demo-folder.ts';
import { workFolder, type WorkFolder } from './work-folder.ts';

/** Programs that the pages mention and that are not typed here, with the reason. */
const notRun = new Map([
  ['fluidsynth', 'tests/prove renders the same with it'],
  ['sha256sum', 'it reads what fluidsynth would have written'],
]);

/** Lines that the page shows in place of others, from the end on so that line numbers stay true. */
type Edit = readonly [from: number, to: number, lines: readonly string[]];

const editsOf = ({ shown, line, at }: CommandStep, printed: readonly string[]): readonly Edit[] => {
  const lines = refilled(shown, printed);
  if (lines !== null) return shown.map(({ from, to }, i) => [from, to, lines[i] ?? []]);
  console.log(`line ${at}: ${line} prints something else now, and is shown whole: look at it`);
  const whole = printed.slice(0, printed.findLastIndex((one) => one !== '') + 1);
  return shown.map(({ from, to }, i) => [from, to, i === 0 ? whole : ['…']]);
};

const follow = async (page: string, folder: WorkFolder): Promise<void> => {
  const path = join(projectFolder, page);
  const text = readFileSync(path, 'utf8');
  const edits: Edit[] = [];
  for (const step of stepsOf(text)) {
    if (step.kind === 'file') {
      folder.write(step.path, step.text);
      continue;
    }
    const [program = ''] = step.line.split(' ');
    const reason = notRun.get(program);
    if (reason !== undefined) {
      console.log(`not run: ${page}:${step.at} ${program} (${reason})`);
      continue;
    }
    expect(['keepset', 'node'], `${page}:${step.at} is no command of ours`).toContain(program);
    const { code, text: printed } = await folder.run(step.line);
    const lines = printed.split('\n').map((line) => line.trimEnd());
    expect(code, `${page}:${step.at} $ ${step.line}\n${printed}`).toBe(step.exit);
    if (isUpdate) edits.push(...editsOf(step, lines));
    else expect(differenceOf(step.shown, lines), `${page}:${step.at} $ ${step.line}`).toBeNull();
  }
  if (edits.length === 0) return;
  const lines = text.split('\n');
  for (const [from, to, shown] of edits.reverse()) lines.splice(from, to - from, ...shown);
  expect(readFileSync(path, 'utf8'), `${page} was changed meanwhile: run it again`).toBe(text);
  writeFileSync(path, lines.join('\n'));
};

/** Pages that have something to type. */
export const typedPages: readonly string[] = pages.filter((page) =>
  stepsOf(readFileSync(join(projectFolder, page), 'utf8')).some(({ kind }) => kind === 'command'),
);

/**
 * Every command that these pages show is typed, in the order of its page, in a folder of its own that
 * holds the demo as `.demo`. What it prints must be what the page shows; a line with `…` alone stands
 * for any lines. `UPDATE_DOCS=1` writes the pages anew instead.
 */
export const followPages = (some: readonly string[]): void => {
  let demo = '';
  beforeAll(async () => {
    demo = await makeDemo();
  }, 60_000);
  afterAll(() => rmSync(demo, { recursive: true, force: true }));

  test.each(some)('%s prints what it shows', { timeout: 240_000 }, async (page) => {
    const folder = workFolder(demo);
    try {
      await follow(page, folder);
    } finally {
      folder.remove();
    }
  });
};
