import { readFileSync } from 'node:fs';
import { describe, expect } from 'vitest';
import { expectError, keepset, spawnKeepset } from './keepset.ts';
import { test } from './material.ts';

const { version } = JSON.parse(
  readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
) as { version: string };

describe('the version', () => {
  test.for([['--version'], ['-V'], ['plan', '--version'], ['usage', '-V']])('%j', async (args) => {
    expect(await spawnKeepset(args)).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
    expect(version).toMatch(/^\d+\.\d+\.\d+$/);
  });
});

const commands = [
  'usage',
  'draft',
  'plan',
  'trim',
  'worklist',
  'primer',
  'inspect',
  'demo',
] as const;

describe('help', () => {
  test('without arguments: on stderr, as wrong usage', async () => {
    const { code, stdout, stderr } = await spawnKeepset([]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/^Usage: keepset /);
    expect(stderr).toBe((await keepset(['--help'])).stdout);
  });

  test.for([['help'], ['-h'], ['--help'], ['help', 'help']])('%j: all of it', async (args) => {
    const { code, stdout, stderr } = await spawnKeepset(args);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    for (const command of [...commands, 'help']) {
      expect(stdout).toMatch(new RegExp(`^ {2}${command} `, 'm'));
    }
  });

  test.for(commands)('help %s prints what its own --help prints', async (command) => {
    const { code, stdout, stderr } = await keepset(['help', command]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatch(new RegExp(`^Usage: keepset ${command} `));
    expect(stdout).toMatch(/^Output:$/m);
    // Three examples to copy, or more.
    expect(stdout.match(/^ {2}keepset /gm)?.length).toBeGreaterThanOrEqual(3);
    expect(stdout).toBe((await keepset([command, '--help'])).stdout);
  });

  test.for([[], ...commands.map((command) => [command])].map((one) => ['help', ...one]))(
    '%j lists each exit code and fits a window of 80 columns and 50 lines',
    async (args) => {
      const { stdout } = await keepset(args);
      const about = stdout.slice(stdout.indexOf('Exit codes:'));
      for (const code of [0, 1, 2, 70, 130]) {
        expect(about).toMatch(new RegExp(`\\b${code} [a-z]`));
      }
      const lines = stdout.split('\n');
      expect(lines.filter((line) => line.length > 80)).toEqual([]);
      expect(lines.length).toBeLessThanOrEqual(50);
    },
  );
});

describe('a wrong command line', () => {
  test.for([
    { args: ['pln'], says: "Unknown command 'pln'.", hint: 'Did you mean plan?' },
    { args: ['help', 'usag'], says: "Unknown command 'usag'.", hint: 'Did you mean usage?' },
    { args: ['zzzzzz'], says: "Unknown command 'zzzzzz'.", hint: 'Run keepset help' },
    {
      args: ['plan', '--fromat', 'json'],
      says: "option '--fromat'",
      hint: 'Did you mean --format?',
    },
    { args: ['usage', '--zzzzzz'], says: "option '--zzzzzz'", hint: 'Run keepset help' },
    { args: ['--strict'], says: "option '--strict'", hint: 'Run keepset help' },
    { args: ['usage'], says: 'Which cues?', hint: 'Name files or folders' },
    { args: ['plan'], says: 'Which instruments', hint: 'keepset draft' },
    { args: ['inspect'], says: "'instrument'", hint: 'Run keepset help' },
    { args: ['draft', 'cues'], says: 'Where should', hint: '-o' },
    { args: ['inspect', 'a.csv'], says: 'Which octave', hint: '--middle-c' },
    { args: ['plan', 'cues'], says: 'Which instrument', hint: '--instrument' },
    { args: ['demo'], says: 'Where should the demo go?', hint: 'Name a folder' },
    { args: ['demo', 'here', '--out', 'x'], says: 'too many arguments', hint: 'Run keepset help' },
    { args: ['usage', 'cues', '--format', 'yaml'], says: 'table, json', hint: 'Run keepset help' },
    { args: ['usage', 'cues', '--color', 'red'], says: 'auto, always, never', hint: 'Run keepset' },
    { args: ['usage', 'cues', '--format'], says: 'argument missing', hint: 'Run keepset help' },
    { args: ['plan', 'cues', '-i', '#0:1'], says: 'no file name', hint: 'FILE.sf2#bank:program' },
    { args: ['plan', 'cues', '-i', 'a.sf2#0:128'], says: 'program 128', hint: '0 to 127' },
    { args: ['plan', 'cues', '-i', 'a.sf2#piano'], says: '"piano"', hint: 'FILE.sf2#bank:program' },
    { args: ['plan', 'cues', '-i', ''], says: 'needs a file name', hint: 'FILE.sf2#bank:program' },
  ])('$args', async ({ args, says, hint }) => {
    const result = await keepset(args);
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    const [what = '', todo = ''] = result.stderr.split('\n');
    expect(what.toLowerCase()).toContain(says.toLowerCase());
    expect(todo).toContain(hint);
    expect(result.stderr.split('\n')).toHaveLength(3);
  });
});
