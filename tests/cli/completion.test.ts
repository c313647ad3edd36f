import { spawnSync } from 'node:child_process';
import { mkdir } from 'node:fs/promises';
import { Command } from 'commander';
import { describe, expect } from 'vitest';
import { commandTree } from '../../src/cli/completion/command-tree.ts';
import { buildProgram } from '../../src/cli/build-program.ts';
import { keepset, runCommand } from './keepset.ts';
import { test, type Folder } from './material.ts';

const shells = ['bash', 'zsh', 'fish'] as const;

const scriptFor = async (shell: (typeof shells)[number]): Promise<string> => {
  const { code, stdout, stderr } = await keepset(['completion', shell]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return stdout;
};

const hasShell = (shell: string): boolean => spawnSync(shell, ['-c', 'true']).error === undefined;
for (const shell of shells) {
  if (!hasShell(shell)) console.log(`skipped: completion in ${shell} (it is not installed)`);
}

test.for(shells)('%s: as it was looked through', async (shell) => {
  await expect(await scriptFor(shell)).toMatchFileSnapshot(`completion/keepset.${shell}.golden`);
});

test('every command, every option and every choice is in each of them', async () => {
  const program = buildProgram(process, { code: 0 });
  const scripts = await Promise.all(shells.map(scriptFor));
  expect(program.commands.length).toBeGreaterThan(10);
  for (const command of program.commands) {
    for (const script of scripts) {
      expect(script).toMatch(new RegExp(`\\b${command.name()}\\b`, 'u'));
      for (const { long, argChoices = [] } of command.options) {
        expect(script).toContain(long?.slice(2));
        for (const choice of argChoices) expect(script).toContain(choice);
      }
    }
  }
});

test('what a shell would read as its own is taken out of what is said', () => {
  const program = new Command('x');
  program
    .command('y')
    .description(`It's "quoted" $(here) \`and\` [there].`)
    .option('--z <file>', `don't`);
  const [y] = commandTree(program).commands;
  expect(y?.about).toBe('Its quoted (here) and there');
  expect(y?.options[0]).toMatchObject({ about: 'dont', value: { kind: 'file' } });
});

/** What bash offers for a line, the last word being completed. */
const offered = async (folder: Folder, ...words: readonly string[]): Promise<readonly string[]> => {
  await folder.write({ 'keepset.bash': await scriptFor('bash') });
  const quoted = words.map((word) => `'${word}'`).join(' ');
  const script = `source ./keepset.bash; COMP_WORDS=(keepset ${quoted}); COMP_CWORD=${String(words.length)}; _keepset; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout, stderr } = await runCommand('bash', ['--norc', '-c', script], {
    cwd: folder.path,
  });
  expect(stderr).toBe('');
  return stdout.split('\n').filter((line) => line !== '');
};

describe.skipIf(!hasShell('bash'))('bash', () => {
  test('reads it without a complaint', async ({ folder }) => {
    await folder.write({ 'keepset.bash': await scriptFor('bash') });
    const read = await runCommand('bash', ['-n', folder.at('keepset.bash')]);
    expect(read).toEqual({ code: 0, stdout: '', stderr: '' });
    const there = 'source ./keepset.bash; complete -p keepset';
    const { stdout } = await runCommand('bash', ['--norc', '-c', there], { cwd: folder.path });
    expect(stdout).toBe('complete -F _keepset keepset\n');
  });

  test.for([
    [['pl'], ['plan']],
    [['--ver'], ['--version']],
    [['plan', '--headroom-'], ['--headroom-curve']],
    [
      ['plan', '--format', ''],
      ['table', 'json', 'csv', 'markdown'],
    ],
    // bash takes "--format=c" apart at the sign.
    [['plan', '--format', '=', 'c'], ['csv']],
    [
      ['plan', '--format', '='],
      ['table', 'json', 'csv', 'markdown'],
    ],
    [['check', '--keep', 'a keep'], ['a keep file.json']],
    [['plan', 'cu'], ['cues']],
    [['trim', '--out', ''], ['cues']],
    [['plan', '--rare', ''], []],
    [
      ['completion', ''],
      ['bash', 'zsh', 'fish'],
    ],
    [['help', 'pri'], ['primer']],
    [['nothing', ''], []],
  ] as const)('%j', async ([words, offers], { folder }) => {
    await folder.write({ 'a keep file.json': '{}' });
    await mkdir(folder.at('cues'));
    expect(await offered(folder, ...words)).toEqual(offers);
  });
});

describe.skipIf(!hasShell('fish'))('fish', () => {
  test('offers commands and choices', async ({ folder }) => {
    await folder.write({ 'keepset.fish': await scriptFor('fish') });
    const ask = async (line: string): Promise<string> => {
      const script = `source keepset.fish; complete -C '${line}'`;
      return (await runCommand('fish', ['--no-config', '-c', script], { cwd: folder.path })).stdout;
    };
    expect(await ask('keepset pla')).toMatch(/^plan\t/u);
    expect(await ask('keepset plan --format ')).toMatch(/^csv\b/mu);
  });
});

describe.skipIf(!hasShell('zsh'))('zsh', () => {
  test('reads it without a complaint', async ({ folder }) => {
    await folder.write({ _keepset: await scriptFor('zsh') });
    const script = 'autoload -U compinit; compinit -u -D; source ./_keepset; whence -w _keepset';
    const { stdout, stderr } = await runCommand('zsh', ['-f', '-c', script], { cwd: folder.path });
    expect({ stdout, stderr }).toEqual({ stdout: '_keepset: function\n', stderr: '' });
  });
});

test('another shell is refused, and what there is is named', async () => {
  const { code, stderr } = await keepset(['completion', 'tcsh']);
  expect(code).toBe(2);
  expect(stderr).toContain('bash, zsh, fish');
});
