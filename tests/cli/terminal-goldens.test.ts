import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { run } from '../../src/cli/run.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { hostOf, type Window } from './terminal-host.ts';

// What each command says of the demo, in terminals of 80 and of 120 columns and in a pipe. Work is
// done once for all three: only how it is shown differs.

const { once } = vi.hoisted(() => {
  type Work = (...args: readonly unknown[]) => unknown;
  const remembering = (work: Work): Work => {
    const known = new Map<string, unknown>();
    return (...args) => {
      const asked = JSON.stringify(args);
      if (!known.has(asked)) known.set(asked, work(...args));
      return known.get(asked);
    };
  };
  return {
    /** A module whose functions work out the same thing only once. */
    once: <Module extends object>(module: Module): Module =>
      Object.fromEntries(
        Object.entries(module).map(([name, value]) => [
          name,
          typeof value === 'function' ? remembering(value as Work) : (value as unknown),
        ]),
      ) as Module,
  };
});

vi.mock(import('../../src/jobs/plan.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/check.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/memory.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/report.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/trim.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/worklist.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/primer.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/verify-primer.ts'), async (original) => once(await original()));
vi.mock(import('../../src/jobs/why.ts'), async (original) => once(await original()));

const home = process.cwd();
let folder = '';

const say = async (args: readonly string[], window: Window = 'piped', env?: { TERM: string }) => {
  const { host, written } = hostOf(window, env);
  const code = await run(args, host);
  return { code, ...written };
};

/** Names are short in the goldens, and the same on every machine: all is read from where it lies. */
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keepset-'));
  process.chdir(folder);
  for (const args of [
    'demo --out .',
    'plan --template sfz.yaml -o keep.json',
    'plan --template sfz.yaml -o before.json --without 2m1',
    'primer --keep keep.json --template sfz.yaml -o primer.mid',
  ]) {
    const { code, stderr } = await say(args.split(' '));
    expect(code, stderr).toBe(0);
  }
}, 60_000);

afterAll(async () => {
  process.chdir(home);
  await rm(folder, { recursive: true, force: true });
});

const sfz = '--template sfz.yaml';
const kept = `--keep keep.json ${sfz}`;

/** Each command, the template of two machines where that is what there is to see. */
const commands = [
  ['usage', 'usage cues'],
  ['plan', 'plan'],
  ['plan-sfz', `plan ${sfz}`],
  ['plan-bank', 'plan cues -i instruments/harbour.sf2'],
  ['check-proved', `check ${kept}`],
  ['check-missing', `check cues ${kept.replace('keep.json', 'before.json')}`],
  ['memory', 'memory'],
  ['memory-instruments', 'memory --by instrument'],
  ['memory-cue', `memory --cue 2m4 ${sfz}`],
  ['diff', 'diff before.json keep.json'],
  ['trim', `trim ${kept} --out small --dry-run`],
  ['worklist', `worklist ${kept}`],
  ['primer', `primer ${kept} -o primer.mid`],
  ['primer-verify', `primer ${kept} --verify primer.mid`],
  ['report', 'report --format text'],
  ['report-missing', `report cues ${kept.replace('keep.json', 'before.json')} --format text`],
  ['why', `why chamber ${kept}`],
  ['why-key', `why chamber ${kept} --key C4`],
  ['inspect', 'inspect instruments/chamber-strings.sfz'],
  ['inspect-bank', 'inspect instruments/harbour.sf2'],
  ['inspect-table', 'inspect tables/fiddle.csv --middle-c C4'],
] as const;

/** Digests change with every change of the keep file, and say nothing here. */
const settled = (text: string): string =>
  text.replace(/(?<=sha256 )[0-9a-f]{12}/gu, '0123456789ab');

describe.each(commands)('%s', (name, line) => {
  test.each([80, 120, 'piped'] as const)('%s', async (window) => {
    const { code, stdout, stderr } = await say(line.split(' '), window);
    expect([0, 1], stderr).toContain(code);
    for (const one of stdout.split('\n')) {
      if (window !== 'piped') expect.soft(displayWidth(one), one).toBeLessThanOrEqual(window);
      expect.soft(one, 'blanks at its end').toBe(one.trimEnd());
    }
    // The answer comes first, and what is needed to act stays in any width.
    expect(stdout).toMatch(/^\S/u);
    expect(stdout).not.toMatch(/Not shown [^.]*[:,] (?:kept|saved|needs|name|keys played)[,.]/u);
    await expect(settled(stdout)).toMatchFileSnapshot(
      `goldens/${name}-${String(window)}.golden.txt`,
    );
  });
});

test('colours change nothing but the colour', async () => {
  for (const [, line] of commands.slice(1, 3)) {
    const plain = await say(line.split(' '), 80);
    const { stdout } = await say(line.split(' '), 80, { TERM: 'xterm' });
    expect(stdout).not.toBe(plain.stdout);
    expect(stdout.replaceAll(/\u001b\[\d+m/gu, '')).toBe(plain.stdout);
  }
});

/** Where a result is a table it can be Markdown too, on stdout and in a file. */
describe('as Markdown', () => {
  const ownList = 'worklist';

  test.each(commands)('%s', async (name, line) => {
    const { stdout, stderr } = await say([...line.split(' '), '--format', 'markdown'], 80);
    expect(stdout, stderr).toMatch(/^# \S.*\n\n/u);
    expect(stdout).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/u);
    // What is asked for once more in a terminal of another width is the same.
    const wide = await say([...line.split(' '), '--format', 'markdown'], 'piped');
    expect(wide.stdout).toBe(stdout);
    if (name !== ownList)
      await expect(settled(stdout)).toMatchFileSnapshot(`goldens/${name}.golden.md`);
  });

  test.each(['usage', 'check-missing', 'memory', 'diff', 'report', 'why', 'worklist'])(
    '%s -o',
    async (name) => {
      const line = commands.find(([own]) => own === name)?.[1] ?? '';
      const args = [...line.split(' '), '--format', 'markdown'];
      const { stdout } = await say(args);
      await say([...args, '-o', `${name}.md`]);
      expect(await readFile(`${name}.md`, 'utf8')).toBe(stdout);
    },
  );
});
