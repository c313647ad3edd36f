import { PassThrough } from 'node:stream';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { showProgress, stepText, watched } from '../../src/cli/progress.ts';
import type { Host } from '../../src/cli/streams.ts';

/** A terminal of 80 columns that keeps what it is sent; `isTTY` false: a pipe. */
const terminal = (isTTY = true) => {
  const stream = Object.assign(new PassThrough(), { isTTY, columns: 80 });
  const text = (): string => (stream.read() as Buffer | null)?.toString() ?? '';
  return { stream: stream as unknown as NodeJS.WriteStream, text };
};

const hostWith = (stderr: NodeJS.WriteStream, env: Host['env'] = {}): Host => ({
  stdout: terminal(false).stream,
  stderr,
  env,
});

const usual = { quiet: false, format: 'table' } as const;
const mib = 2 ** 20;

let now = 0;
beforeEach(() => {
  now = 0;
  vi.spyOn(performance, 'now').mockImplementation(() => now);
});
afterEach(() => {
  vi.restoreAllMocks();
});

/** The library is loaded by and by. */
const untilShown = (text: () => string): Promise<string> =>
  vi.waitFor(
    () => {
      const shown = text();
      expect(shown).not.toBe('');
      return shown;
    },
    { timeout: 60_000 },
  );

describe('the bar', () => {
  test('shows after half a second how far it is, and is cleared', async () => {
    const { stream, text } = terminal();
    const { onProgress, stop } = showProgress(usual, hostWith(stream));
    onProgress(mib, 100 * mib);
    now = 499;
    onProgress(2 * mib, 100 * mib);
    now = 500;
    onProgress(3 * mib, 100 * mib);
    onProgress(25 * mib, 100 * mib);
    const shown = await untilShown(text);
    expect(shown).toContain('writing the files [=====               ] 25 % of 100 MiB');
    stop();
    // The start of the line, and all of it erased (ECMA-48, CHA and EL 2), are the last that is sent.
    expect(text().endsWith('\x1b[1G\x1b[2K')).toBe(true);
    onProgress(50 * mib, 100 * mib);
    stop();
    expect(text()).toBe('');
  });

  test('tells what takes its time when all is written', async () => {
    const { stream, text } = terminal();
    const { onProgress, stop } = showProgress(usual, hostWith(stream));
    onProgress(mib, 2 * mib);
    now = 600;
    onProgress(2 * mib, 2 * mib);
    expect(await untilShown(text)).toMatch(/playing the score .* 100 % of 2\.00 MiB/);
    stop();
  });

  test('leaves neither the cursor hidden nor lines unbroken if the process ends meanwhile', async () => {
    const { stream, text } = terminal();
    const { onProgress, stop } = showProgress(usual, hostWith(stream));
    onProgress(0, mib);
    now = 600;
    onProgress(1, mib);
    const shown = await untilShown(text);
    expect(shown).not.toContain('\x1b[?25l');
    expect(shown).not.toContain('\x1b[?7l');
    stop();
  });

  test('stays away if all is done before it is there', async () => {
    const { stream, text } = terminal();
    const { onProgress, stop } = showProgress(usual, hostWith(stream));
    onProgress(0, mib);
    now = 600;
    onProgress(1, mib);
    stop();
    await import('cli-progress');
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(text()).toBe('');
  });
});

test.each([
  ['in a pipe', false, usual, {}],
  ['with --quiet', true, { ...usual, quiet: true }, {}],
  ['with JSON', true, { ...usual, format: 'json' }, {}],
  ['on a build server', true, usual, { CI: '1' }],
  ['on a terminal that can not move its cursor', true, usual, { TERM: 'dumb' }],
] as const)('%s there is none', async (_, isTTY, options, env) => {
  const { stream, text } = terminal(isTTY);
  const { onProgress, stop } = showProgress(options, hostWith(stream, env));
  onProgress(0, mib);
  now = 5_000;
  onProgress(1, mib);
  await import('cli-progress');
  await new Promise((resolve) => setTimeout(resolve, 20));
  onProgress(2, mib);
  stop();
  expect(text()).toBe('');
});

describe('the line of a job', () => {
  const step = (name: string, at: number) =>
    ({ doing: 'playing', name, count: { at, of: 9 } }) as const;

  test('comes after half a second, says where the job is, and is cleared before the result', async () => {
    const { stream, text } = terminal();
    const result = await watched(usual, hostWith(stream), async (onStep) => {
      await onStep?.(step('1m1', 1));
      expect(text()).toBe('');
      now = 600;
      await onStep?.(step('2m3', 7));
      expect(text()).toContain('playing 2m3 (7 of 9)');
      await onStep?.({ doing: 'working out', name: 'what stays', count: null });
      expect(text()).toContain('working out what stays');
      return 'done';
    });
    expect(result).toBe('done');
    // ECMA-48, CHA and EL 2: the start of the line, and all of it erased.
    expect(text().endsWith('\x1b[1G\x1b[2K')).toBe(true);
  });

  test('is cleared when the job fails', async () => {
    const { stream, text } = terminal();
    const failing = watched(usual, hostWith(stream), async (onStep) => {
      now = 600;
      await onStep?.(step('2m3', 7));
      throw new Error('on purpose');
    });
    await expect(failing).rejects.toThrow('on purpose');
    expect(text().endsWith('\x1b[1G\x1b[2K')).toBe(true);
    expect(process.listenerCount('exit')).toBe(before);
  });

  test('keeps inside the terminal, and a name does nothing to it', () => {
    const text = stepText(step(`\x1b[2J${'long '.repeat(40)}`, 7), 60);
    expect(text.length).toBeLessThan(60);
    expect(text).toMatch(/^playing \\x1b\[2J.*\.\.\..* \(7 of 9\)$/u);
  });

  const before = process.listenerCount('exit');

  test.each([
    ['in a pipe', false, usual, {}],
    ['with --quiet', true, { ...usual, quiet: true }, {}],
    ['with JSON', true, { ...usual, format: 'json' }, {}],
    ['on a build server', true, usual, { CI: '1' }],
    ['on a terminal that can not move its cursor', true, usual, { TERM: 'dumb' }],
  ] as const)('%s there is none', async (_, isTTY, options, env) => {
    const { stream, text } = terminal(isTTY);
    await watched(options, hostWith(stream, env), async (onStep) => {
      now = 5_000;
      await onStep?.(step('2m3', 7));
    });
    expect(text()).toBe('');
  });
});
