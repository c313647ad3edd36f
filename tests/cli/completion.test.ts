import { mkdir } from 'node:fs/promises';
import { Command } from 'commander';
import { describe, expect } from 'vitest';
import { commandTree } from '../../src/cli/completion/command-tree.ts';
import { buildProgram } from '../../src/cli/build-program.ts';
import { keepset, runCommand } from './keepset.ts';
import { needs } from '../tools.ts';
import { test, type Folder } from './material.ts';
import { zshOffers } from './zsh-offers.ts';

const shells = ['bash', 'zsh', 'fish'] as const;

const scriptFor = async (shell: (typeof shells)[number]): Promise<string> => {
  const { code, stdout, stderr } = await keepset(['completion', shell]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return stdout;
};

/** Package and command have one name. */
const has = Object.fromEntries(shells.map((shell) => [shell, needs(shell, shell)]));

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

describe.skipIf(has['bash'] !== true)('bash', () => {
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

/** What fish and zsh make of a line: where one thing fits it is completed, else all are listed. */
const lines = [
  ['keepset pla', ['plan']],
  ['keepset --ver', ['--version']],
  ['keepset plan --headroom-', ['--headroom-curve']],
  ['keepset plan --format ', ['csv', 'json', 'markdown', 'table']],
  ['keepset plan --format=c', ['--format=csv']],
  ['keepset check --keep a', ['a keep file.json']],
  ['keepset plan cu', ['cues/']],
  ['keepset trim --out ', ['cues/']],
  ['keepset plan --rare ', []],
  ['keepset completion ', ['bash', 'fish', 'zsh']],
  ['keepset help pri', ['primer']],
] as const;

const writeWork = async (folder: Folder): Promise<void> => {
  await folder.write({ 'a keep file.json': '{}' });
  await mkdir(folder.at('cues'));
};

describe.skipIf(has['fish'] !== true)('fish', () => {
  test('reads it without a complaint', async ({ folder }) => {
    await folder.write({ 'keepset.fish': await scriptFor('fish') });
    const read = await runCommand('fish', ['--no-config', folder.at('keepset.fish')]);
    expect(read).toEqual({ code: 0, stdout: '', stderr: '' });
  });

  test.for(lines)('%s', async ([line, offers], { folder }) => {
    await writeWork(folder);
    await folder.write({ 'keepset.fish': await scriptFor('fish') });
    const script = `source keepset.fish; complete -C '${line}'`;
    const args = ['--no-config', '-c', script];
    const { stdout, stderr } = await runCommand('fish', args, { cwd: folder.path });
    expect(stderr).toBe('');
    // What it is stands behind a tab.
    const offered = stdout.split('\n').flatMap((one) => (one === '' ? [] : [one.split('\t')[0]]));
    expect(offered).toEqual(offers);
  });
});

describe.skipIf(has['zsh'] !== true)('zsh', () => {
  test('reads it without a complaint', async ({ folder }) => {
    await folder.write({ _keepset: await scriptFor('zsh') });
    const script = 'autoload -U compinit; compinit -u -D; source ./_keepset; whence -w _keepset';
    const { stdout, stderr } = await runCommand('zsh', ['-f', '-c', script], { cwd: folder.path });
    expect({ stdout, stderr }).toEqual({ stdout: '_keepset: function\n', stderr: '' });
  });

  test('offers what there is', async ({ folder }) => {
    await writeWork(folder);
    const typed = lines.map(([line]) => line);
    const found = await zshOffers(folder, await scriptFor('zsh'), typed);
    expect(found).toHaveLength(lines.length);
    found.forEach(({ line, offers }, i) => {
      const [before, expected] = lines[i]!;
      // Blanks in names are guarded, and one comes behind a word that is whole.
      const after = line.replaceAll('\\', '').trimEnd();
      const [only] = expected;
      if (expected.length !== 1) {
        expect([line, [...offers].sort()]).toEqual([before, expected]);
      } else {
        expect(after).toBe(`${before.slice(0, before.lastIndexOf(' ') + 1)}${only!}`);
      }
    });
  });
});

test('another shell is refused, and what there is is named', async () => {
  const { code, stderr } = await keepset(['completion', 'tcsh']);
  expect(code).toBe(2);
  expect(stderr).toContain('bash, zsh, fish');
});
