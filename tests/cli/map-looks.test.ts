import { describe, expect } from 'vitest';
import { run } from '../../src/cli/run.ts';
import { hostOf, type Window } from './terminal-host.ts';
import { test as plainTest } from './material.ts';

/** How a map of keys and a table of Markdown look where colours or signs are asked for, or can't be. */

type Env = Readonly<Record<string, string>>;

const anyEscape = '\u001b';
const plainAscii = /^[\n\x20-\x7e]*$/u;
const block = '█';

/** A keep file, and all in a terminal of 80 columns unless it says otherwise. */
const test = plainTest.extend<{
  say: (line: string, env: Env, window?: Window) => Promise<string>;
}>({
  say: async ({ score }, use) => {
    const say = async (line: string, env: Env, window: Window = 80): Promise<string> => {
      const { host, written } = hostOf(window, env);
      const args = line.split(' ').map((word) => (/\.|cues/u.test(word) ? score.at(word) : word));
      expect(await run(args, host), written.stderr).toBe(0);
      return written.stdout;
    };
    await say('plan cues -i bank.sf2 -o keep.json', {}, 'piped');
    await use(say);
  },
});

const maps = ['inspect bank.sf2 --verbose', 'why bank --keep keep.json -i bank.sf2 --verbose'];

describe.each(maps)('%s', (line) => {
  test.for<{ flags?: string; env: Env; window?: Window; colors: boolean }>([
    { env: { TERM: 'xterm' }, colors: true },
    { env: { TERM: 'dumb' }, colors: false },
    { env: { TERM: 'xterm', NO_COLOR: '1' }, colors: false },
    { env: { TERM: 'xterm', FORCE_COLOR: '0' }, colors: false },
    { env: { TERM: 'xterm' }, window: 'piped', colors: false },
    { env: { FORCE_COLOR: '1' }, window: 'piped', colors: true },
    { flags: ' --color always', env: { NO_COLOR: '1' }, window: 'piped', colors: true },
    { flags: ' --color never', env: { TERM: 'xterm' }, colors: false },
  ])('$flags $env $window', async ({ flags = '', env, window, colors }, { say }) => {
    const text = await say(line + flags, env, window);
    expect(text).toContain('Keys and layers');
    expect(text.includes(anyEscape)).toBe(colors);
    // The shapes say it all by themselves.
    const plain = await say(`${line} --color never`, env, window);
    expect(text.replaceAll(/\u001b\[\d+m/gu, '')).toBe(plain);
  });

  test.for<{ flags?: string; env: Env; ascii: boolean }>([
    { env: {}, ascii: false },
    { env: { LANG: 'en_GB.UTF-8' }, ascii: false },
    { env: { LANG: 'en_GB.ISO-8859-1' }, ascii: true },
    { env: { LC_CTYPE: 'C', LANG: 'en_GB.UTF-8' }, ascii: true },
    { flags: ' --ascii', env: { LANG: 'en_GB.UTF-8' }, ascii: true },
  ])('signs: $flags $env', async ({ flags = '', env, ascii }, { say }) => {
    const text = await say(`${line} --color never${flags}`, env);
    expect(text).toContain('Keys and layers');
    expect(text.includes(block)).toBe(!ascii);
    expect(plainAscii.test(text)).toBe(ascii);
  });
});

describe('Markdown', () => {
  test.for<{ flags?: string; env: Env }>([
    { env: { TERM: 'xterm' } },
    { env: { FORCE_COLOR: '1' } },
    { flags: ' --color always', env: { TERM: 'xterm' } },
  ])('has no colours: $flags $env', async ({ flags = '', env }, { say }) => {
    for (const line of ['plan cues -i bank.sf2', ...maps]) {
      const text = await say(`${line} --format markdown${flags}`, env);
      expect(text).toMatch(/^# /u);
      expect(text).not.toContain(anyEscape);
    }
  });

  test.for<{ env: Env; ascii: boolean }>([
    { env: { LANG: 'C' }, ascii: true },
    { env: { LC_ALL: 'POSIX' }, ascii: true },
    { env: { LANG: 'en_GB.UTF-8' }, ascii: false },
  ])('has the signs that its locale has: %o', async ({ env, ascii }, { say }) => {
    for (const line of maps) {
      const text = await say(`${line} --format markdown`, env);
      expect(plainAscii.test(text)).toBe(ascii);
    }
  });
});
