import { spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { all, inPlace, put, putOurs } from './folder-draft-places.ts';

const child = fileURLToPath(new URL('./folder-draft-child.js', import.meta.url));
const modules = fileURLToPath(new URL('../../dist', import.meta.url));
const isBuilt = existsSync(`${modules}/files/folder-draft.js`);
if (!isBuilt) console.log('skipped: killing a process that writes (dist is not built)');

const sample = Uint8Array.from({ length: 64 * 1024 }, (_, i) => (i * 7) & 255);
const old = { 'old.sfz': 'old', 'deep/old.wav': 'older' };

type At = (name: string) => string;

/** Runs the child to its end, or kills it so many milliseconds after it is ready. */
const run = (at: At, delay: number | null, ...more: readonly string[]) =>
  new Promise<{ readonly took: number; readonly killed: boolean }>((resolve, reject) => {
    const args = [child, modules, at('out'), at('source.wav'), ...more];
    const running = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
    let [started, took, errors] = [0, 0, ''];
    running.stderr.on('data', (text: Buffer) => (errors += text.toString()));
    running.stdout.on('data', (text: Buffer) => {
      if (text.includes('done')) took = performance.now() - started;
      else {
        started = performance.now();
        if (delay !== null) setTimeout(() => running.kill('SIGKILL'), delay);
      }
    });
    running.on('close', (code, signal) => {
      if (code === 0 || signal === 'SIGKILL') resolve({ took, killed: signal !== null });
      else reject(new Error(errors));
    });
  });

const content = (folder: string): string => JSON.stringify(all(folder));

/** What is at the output is whole, or nothing is there and both lie beside it. */
const expectWhole = (at: At, was: string, isNew: (content: string) => boolean): string => {
  const beside = readdirSync(at('')).filter((name) => !['out', 'source.wav'].includes(name));
  for (const name of beside) expect(name).toMatch(/^out\.[0-9a-f]{8}\.(?:part|old)$/);
  const draft = beside.find((name) => name.endsWith('.part'));
  const before = beside.find((name) => name.endsWith('.old'));
  const isDraftWhole = draft !== undefined && isNew(content(at(draft)));
  if (draft !== undefined && !isDraftWhole && readdirSync(at(draft)).length > 0) {
    expect(readdirSync(at(draft))).toContain('UNFINISHED.txt');
  }
  if (existsSync(at('out'))) {
    const is = content(at('out'));
    if (is === was) return 'old';
    expect(isNew(is)).toBe(true);
    return 'new';
  }
  if (was === '') return 'nothing';
  expect(content(at(before!))).toBe(was);
  expect(isDraftWhole).toBe(true);
  return 'beside';
};

const isNew = (is: string): boolean => is === whole;
let whole = '';

const killing = (over: boolean, delay: number | null, ...more: readonly string[]) => {
  let result = { found: '', killed: false, took: 0 };
  return inPlace(async (at) => {
    put(at('source.wav'), sample);
    if (over) putOurs(at('out'), old);
    const was = over ? content(at('out')) : '';
    const { killed, took } = await run(at, delay, ...more);
    if (delay === null && more.length === 0) whole = content(at('out'));
    result = { found: expectWhole(at, was, isNew), killed, took };
  }).then(() => result);
};

/** Seeded figures between 0 and 1 (a linear congruence with the figures of C's example `rand`). */
const seeded = (count: number): readonly number[] => {
  let state = 6;
  return Array.from({ length: count }, () => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return (state >>> 8) / 2 ** 24;
  });
};

describe.skipIf(!isBuilt)('a process that writes is killed', () => {
  test('when it is not, the folder is written', async () => {
    const { found, killed } = await killing(true, null);
    expect({ found, killed }).toEqual({ found: 'new', killed: false });
    const names = Object.entries(JSON.parse(whole) as Record<string, string | null>);
    expect(names.filter(([, held]) => held?.length === sample.length).length).toBe(60);
  });

  test('at 25 moments', async () => {
    const { took } = await killing(true, null);
    const found: string[] = [];
    for (const [i, moment] of seeded(25).entries()) {
      found.push((await killing(i % 2 === 0, moment * took * 1.1)).found);
    }
    console.log(`killed at moments: ${[...new Set(found)].sort().join(', ')}`);
    expect(found.length).toBe(25);
  });

  test.for([
    { call: 'makeFolder', count: 1, found: 'old' },
    { call: 'openNew', count: 1, found: 'old' },
    { call: 'openNew', count: 30, found: 'old' },
    { call: 'write', count: 61, found: 'old' },
    { call: 'sync', count: 1, found: 'old' },
    { call: 'removeFile', count: 1, found: 'old' },
    { call: 'rename', count: 1, found: 'old' },
    { call: 'rename', count: 2, found: 'beside' },
    { call: 'removeAll', count: 1, found: 'new' },
  ])('just before $call, $count', async ({ call, count, found }) => {
    const result = await killing(true, null, call, String(count));
    expect({ found: result.found, killed: result.killed }).toEqual({ found, killed: true });
  });
});
