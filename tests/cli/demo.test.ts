import { rm } from 'node:fs/promises';
import { expect } from 'vitest';
import { expectError, keepset } from './keepset.ts';
import { test } from './material.ts';

test('every command that the demo proposes runs on it', async ({ folder }) => {
  const demo = await keepset(['demo', '--out', 'harbour/'], { cwd: folder.path });
  expect(demo).toMatchObject({ code: 0, stderr: '' });
  const written = Object.keys(await folder.state());
  const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/') + 1);
  for (const path of written) {
    const beside = written.filter((other) => folderOf(other) === folderOf(path)).length;
    const line = beside > 16 ? `${folderOf(path)} (${String(beside)} files)` : path;
    expect(demo.stdout).toContain(`\n  ${line}\n`);
  }
  const proposed = [...demo.stdout.matchAll(/^ {2}keepset (.+)$/gm)].map(([, line = '']) => line);
  expect(proposed.map((line) => line.split(' ')[0])).toEqual([
    'usage',
    'plan',
    'plan',
    'plan',
    'inspect',
    'inspect',
  ]);
  for (const line of proposed) {
    expect(await keepset(line.split(' '), { cwd: folder.path })).toMatchObject({ code: 0 });
  }
});

test('again: the same files, and what is missing comes back', async ({ folder }) => {
  const args = ['demo', '--out', 'harbour'];
  const first = await keepset(args, { cwd: folder.path });
  const state = await folder.state();
  await folder.write({ 'harbour/mine.txt': 'left alone' });
  await rm(folder.at('harbour/README.txt'));
  expect(await keepset(args, { cwd: folder.path })).toEqual(first);
  const again = await folder.state();
  expect(Object.keys(again)).toHaveLength(Object.keys(state).length + 1);
  expect(again).toMatchObject(state);
});

test('a file of another content is in the way: nothing is written', async ({ folder }) => {
  await folder.write({ 'harbour/instruments/harbour.sf2': 'mine' });
  const before = await folder.state();
  const result = await keepset(['demo', '--out', 'harbour'], { cwd: folder.path });
  expect(result).toMatchObject({ code: 2, stdout: '' });
  expectError(result, 'output-exists', 'harbour/instruments/harbour.sf2');
  expect(await folder.state()).toEqual(before);
});

test('a file in the place of the folder', async ({ folder }) => {
  await folder.write({ harbour: 'a file' });
  const before = await folder.state();
  const result = await keepset(['demo', '--out', 'harbour'], { cwd: folder.path });
  expect(result).toMatchObject({ code: 2, stdout: '' });
  expectError(result, 'output-unwritable', 'harbour/README.txt');
  expect(await folder.state()).toEqual(before);
});

test('--quiet writes without a word', async ({ folder }) => {
  const result = await keepset(['demo', '--out', '.', '-q'], { cwd: folder.path });
  expect(result).toEqual({ code: 0, stdout: '', stderr: '' });
  expect(Object.keys(await folder.state())).toContain('README.txt');
});
