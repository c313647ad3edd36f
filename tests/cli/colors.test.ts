import { spawnSync } from 'node:child_process';
import { describe, expect } from 'vitest';
import { keepset, program, runCommand } from './keepset.ts';
import { test } from './material.ts';

type Env = Readonly<Record<string, string>>;

const colored = /\x1b\[\d+m/;
const anyEscape = '\x1b';

const plan = ['plan', 'cues', '-i', 'bank.sf2'];
const wrong = ['plan', 'cues'];

describe('in a pipe', () => {
  test.for<{ flags?: readonly string[]; env: Env; colors: boolean }>([
    { env: {}, colors: false },
    { env: { CI: '1', GITHUB_ACTIONS: 'true' }, colors: false },
    { env: { TERM: 'xterm-256color', COLORTERM: 'truecolor' }, colors: false },
    { env: { FORCE_COLOR: '1' }, colors: true },
    { env: { FORCE_COLOR: '' }, colors: false },
    { env: { FORCE_COLOR: '0' }, colors: false },
    { env: { NO_COLOR: '1', FORCE_COLOR: '1' }, colors: false },
    { env: { NO_COLOR: '', FORCE_COLOR: '1' }, colors: true },
    { env: { TERM: 'dumb', FORCE_COLOR: '1' }, colors: true },
    { flags: ['--color', 'always'], env: { NO_COLOR: '1', TERM: 'dumb' }, colors: true },
    { flags: ['--color=never'], env: { FORCE_COLOR: '1' }, colors: false },
    { flags: ['--color', 'auto'], env: { FORCE_COLOR: '1' }, colors: true },
  ])('$flags $env', async ({ flags = [], env, colors }, { score }) => {
    const done = await keepset([...plan, ...flags], { cwd: score.path, env });
    expect(done.code).toBe(0);
    expect(done.stderr).toBe('');
    const failed = await keepset([...wrong, ...flags], { cwd: score.path, env });
    expect(failed.stderr).toContain('Which instrument');
    for (const text of [done.stdout, failed.stderr]) {
      if (colors) expect(text).toMatch(colored);
      else expect(text).not.toContain(anyEscape);
    }
  });

  test('JSON and help have none, whatever is asked for', async ({ score }) => {
    const env = { FORCE_COLOR: '1' };
    const json = [...plan, '--format', 'json', '--color', 'always'];
    for (const args of [json, [...wrong, '--format', 'json'], ['help', 'plan'], []]) {
      const { stdout, stderr } = await keepset(args, { cwd: score.path, env });
      expect(stdout + stderr).not.toContain(anyEscape);
    }
  });
});

/** Runs a command with a terminal for its stdout and stderr; both come back in one. */
const inTerminal = (args: readonly string[], cwd: string, env: Env) => {
  const words = [process.execPath, program, ...args].map((word) => `'${word}'`).join(' ');
  return runCommand('script', ['-qec', words, '/dev/null'], { cwd, env });
};

// util-linux; other systems have a program of that name with other options.
const hasScript = spawnSync('script', ['-qec', 'true', '/dev/null']).status === 0;
if (!hasScript) console.log('skipped: colours in a terminal ("script" of util-linux is not there)');

describe.skipIf(!hasScript)('in a terminal', () => {
  test.for<{ flags?: readonly string[]; env: Env; colors: boolean }>([
    { env: { TERM: 'xterm' }, colors: true },
    { env: { TERM: 'dumb' }, colors: false },
    { env: { TERM: 'xterm', NO_COLOR: '1' }, colors: false },
    { env: { TERM: 'xterm', FORCE_COLOR: '0' }, colors: false },
    { flags: ['--color', 'never'], env: { TERM: 'xterm' }, colors: false },
  ])('$flags $env', async ({ flags = [], env, colors }, { score }) => {
    const done = await inTerminal([...plan, ...flags], score.path, env);
    expect(done.stdout).toContain('no memory budget given.');
    const failed = await inTerminal([...wrong, ...flags], score.path, env);
    expect(failed.stdout).toContain('Which instrument');
    for (const { stdout } of [done, failed]) {
      if (colors) expect(stdout).toMatch(colored);
      else expect(stdout).not.toContain(anyEscape);
    }
  });

  test('of unknown width: 80 columns, unless --wide', async ({ score }) => {
    const env = { TERM: 'dumb' };
    const widest = async (...flags: readonly string[]): Promise<number> => {
      const { stdout } = await inTerminal([...plan, ...flags], score.path, env);
      return Math.max(...stdout.split(/\r?\n/).map((line) => line.length));
    };
    expect(await widest()).toBeLessThanOrEqual(80);
    expect(await widest('--wide')).toBeGreaterThan(80);
  });
});

describe('rules and dots', () => {
  const plainAscii = /^[\n\x20-\x7e]*$/;
  test.for<{ flags?: readonly string[]; env: Env; ascii: boolean }>([
    { env: {}, ascii: false },
    { env: { LANG: 'en_GB.UTF-8' }, ascii: false },
    { env: { LANG: 'C' }, ascii: true },
    { env: { LC_ALL: 'C.utf8', LANG: 'C' }, ascii: false },
    { env: { LC_ALL: 'POSIX', LANG: 'en_GB.UTF-8' }, ascii: true },
    { flags: ['--ascii'], env: { LANG: 'en_GB.UTF-8' }, ascii: true },
  ])('$flags $env', async ({ flags = [], env, ascii }, { score }) => {
    const { stdout } = await keepset([...plan, ...flags], { cwd: score.path, env });
    if (ascii) expect(stdout).toMatch(plainAscii);
    else expect(stdout).toContain('──');
  });
});
