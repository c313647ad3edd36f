import { PassThrough } from 'node:stream';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { showProgress } from '../../src/cli/progress.ts';
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
  vi.waitFor(() => {
    const shown = text();
    expect(shown).not.toBe('');
    return shown;
  });

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
    expect(shown).toContain('writing the files [=====               ] 25 % of 100.0 MiB');
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
    expect(await untilShown(text)).toMatch(/playing the score .* 100 % of 2\.0 MiB/);
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
