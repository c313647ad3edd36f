import { readFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { run } from '../../src/cli/run.ts';
import { smallRig } from '../overview/small-rig.ts';
import { keepset, type Ended } from './keepset.ts';
import { test as base, type Folder } from './material.ts';
import { hostOf } from './terminal-host.ts';

/** A report to read in a terminal, or to paste: where it goes, and how the command ends. */

const test = base.extend<{ rig: Folder }>({
  rig: async ({ folder }, use) => {
    await folder.write(smallRig);
    await use(folder);
  },
});

const reportIn = (folder: Folder, ...more: readonly string[]): Promise<Ended> =>
  keepset(['report', ...more], { cwd: folder.path });

const keepIn = async (folder: Folder): Promise<void> => {
  const { code, stderr } = await keepset(['plan', '-o', 'keep.json'], { cwd: folder.path });
  expect(code, stderr).toBe(0);
};

const beginnings = {
  text: /^The Ferry\n\nProved: 2 cues need none of the 9 zones that go\.\n/u,
  markdown: /^# What must stay loaded\n\n## The Ferry\n\n\*\*Proved:\*\* 2 cues need none of /u,
} as const;

describe.each(['text', 'markdown'] as const)('--format %s', (format) => {
  test('goes to stdout, and 0 is proved', async ({ rig }) => {
    const { code, stdout, stderr } = await reportIn(rig, '--format', format, '--title=The Ferry');
    expect(code, stderr).toBe(0);
    expect(stdout).toMatch(beginnings[format]);
    expect(stdout).not.toContain('<html');
    expect(stderr).not.toContain('wrote');
  });

  test('-o writes the same, and - is stdout', async ({ rig }) => {
    const { stdout } = await reportIn(rig, '--format', format);
    const file = await reportIn(rig, '--format', format, '-o', 'report.out');
    expect(file).toMatchObject({ code: 0, stdout: '' });
    expect(file.stderr).toMatch(/\nwrote report\.out\n$|^wrote report\.out\n$/u);
    expect(await readFile(rig.at('report.out'), 'utf8')).toBe(stdout);
    const dash = await reportIn(rig, '--format', format, '-o', '-');
    expect(dash.stdout).toBe(stdout);
  });

  test('1 is missing: it is told all the same', async ({ rig }) => {
    await keepIn(rig);
    const line = ['later', '--keep', 'keep.json', '--format', format];
    const { code, stdout } = await reportIn(rig, ...line);
    expect(code).toBe(1);
    expect(stdout).toContain('2 zones that go are asked for, first at 1m2 v2 bar 3 beat 1');
    const file = await reportIn(rig, ...line, '-o', 'report.out');
    expect(file).toMatchObject({ code: 1, stdout: '' });
    expect(await readFile(rig.at('report.out'), 'utf8')).toBe(stdout);
  });

  test('findings are on stderr, and not in it', async ({ rig }) => {
    const { stdout, stderr } = await reportIn(rig, '--format', format, '--verbose');
    expect(stderr).toMatch(/^note/mu);
    expect(stdout).not.toMatch(/^note/mu);
  });

  test('what is no report is not written over, and neither is an input', async ({ rig }) => {
    await rig.write({ 'mine.txt': 'mine\n' });
    const before = await rig.state();
    for (const out of ['mine.txt', 'keepset.yaml', 'cues/1m1.mid']) {
      const { code, stdout } = await reportIn(rig, '--format', format, '-o', out);
      expect([code, stdout], out).toEqual([2, '']);
    }
    expect(await rig.state()).toEqual(before);
  });
});

test('table is text by another name', async ({ rig }) => {
  const text = await reportIn(rig, '--format', 'text');
  expect(text.stdout).toContain('\nMachines\n');
  expect(await reportIn(rig, '--format', 'table')).toEqual(text);
});

test('what was not asked for as text is a page', async ({ rig }) => {
  const { stdout } = await reportIn(rig);
  expect(stdout).toMatch(/^<!doctype html>/u);
});

test('a terminal gets no page, and is told of the text', async ({ rig }) => {
  const { host, written } = hostOf(80);
  const template = ['--template', rig.at('keepset.yaml')];
  expect(await run(['report', ...template], host)).toBe(2);
  expect(written.stdout).toBe('');
  expect(written.stderr).toContain('A page is not for the terminal.');
  expect(written.stderr).toContain('--format text');
  const text = hostOf(80);
  expect(await run(['report', ...template, '--format', 'text'], text.host)).toBe(0);
  expect(text.written.stdout).toMatch(/^Proved: /u);
});
