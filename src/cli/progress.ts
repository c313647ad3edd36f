import { formatBytes } from '../report/format.ts';
import type { CommonOptions } from './options.ts';
import type { Host } from './streams.ts';

/** Shorter waits need no bar. */
const patience = 500;

/** A bar on stderr while bytes are written. */
export interface Progress {
  /** Bytes so far, and in all. */
  readonly onProgress: (done: number, total: number) => void;
  /** Clears it; results come after. */
  readonly stop: () => void;
}

const isWanted = (
  { quiet, format }: Pick<CommonOptions, 'quiet' | 'format'>,
  { stderr, env }: Host,
): boolean =>
  stderr.isTTY && !quiet && format !== 'json' && env['TERM'] !== 'dumb' && (env['CI'] ?? '') === '';

/**
 * Shows how far the writing is, from half a second on and only where a person looks on: never in a pipe,
 * with `--quiet`, with JSON, or on a build server.
 */
export const showProgress = (
  options: Pick<CommonOptions, 'quiet' | 'format'>,
  host: Host,
): Progress => {
  if (!isWanted(options, host)) return { onProgress: () => undefined, stop: () => undefined };
  let began: number | null = null;
  let last: readonly [done: number, total: number] = [0, 0];
  let bar: Bar | 'loading' | 'stopped' | null = null;
  const stop = (): void => {
    if (bar !== null && typeof bar === 'object') bar.stop();
    bar = 'stopped';
    process.removeListener('exit', stop);
  };
  const onProgress = (done: number, total: number): void => {
    last = [done, total];
    began ??= performance.now();
    if (bar === null) {
      if (performance.now() - began < patience) return;
      bar = 'loading';
      // Ctrl-C ends the process in the middle of it.
      process.once('exit', stop);
      void makeBar(host.stderr).then((made) => {
        if (bar === 'stopped') return;
        bar = made;
        bar.show(...last);
      });
    } else if (typeof bar === 'object') bar.show(done, total);
  };
  return { onProgress, stop };
};

interface Bar {
  readonly show: (done: number, total: number) => void;
  readonly stop: () => void;
}

/** The library is loaded when there is something to show. */
const makeBar = async (stream: NodeJS.WriteStream): Promise<Bar> => {
  const { SingleBar } = (await import('cli-progress')).default;
  const bar = new SingleBar({
    stream,
    format: '{doing} [{bar}] {percentage} % of {size}',
    barsize: 20,
    barCompleteChar: '=',
    barIncompleteChar: ' ',
    clearOnComplete: true,
    // Else the terminal stays without line breaks when the process is stopped.
    linewrap: true,
  });
  const about = (done: number, total: number) => ({
    doing: done < total ? 'writing the files' : 'playing the score',
    size: formatBytes(total),
  });
  let isShown = false;
  return {
    show: (done, total) => {
      if (isShown) bar.update(done, about(done, total));
      else bar.start(total, done, about(done, total));
      isShown = true;
    },
    stop: () => bar.stop(),
  };
};
