import type { OnStep, WorkStep } from '../jobs/work-step.ts';
import { formatBytes } from '../report/format.ts';
import { cutMiddle } from '../report/text-width.ts';
import { printable } from '../terms/printable.ts';
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

/**
 * Runs a job and says what it is at, in one line on stderr, where a person waits for more than half a
 * second: as {@link showProgress}, and gone before the result.
 */
export const watched = async <Result>(
  options: Pick<CommonOptions, 'quiet' | 'format'>,
  host: Host,
  job: (onStep: OnStep | undefined) => Promise<Result>,
): Promise<Result> => {
  if (!isWanted(options, host)) return job(undefined);
  const began = performance.now();
  let line: StepLine | null = null;
  const clear = (): void => line?.stop();
  // Ctrl-C ends the process in the middle of it.
  process.once('exit', clear);
  try {
    return await job(async (step) => {
      if (performance.now() - began < patience) return;
      line ??= await makeLine(host.stderr);
      line.show(stepText(step, host.stderr.columns || usualColumns));
      // The work after it holds everything up: Ctrl-C is heard here.
      await new Promise((resolve) => setImmediate(resolve));
    });
  } finally {
    clear();
    process.removeListener('exit', clear);
  }
};

const usualColumns = 80;

/** @example stepText({ doing: 'playing', name: '2m3', count: { at: 7, of: 9 } }, 80) // 'playing 2m3 (7 of 9)' */
export const stepText = ({ doing, name, count }: WorkStep, columns: number): string => {
  const place = count === null ? '' : ` (${String(count.at)} of ${String(count.of)})`;
  const room = columns - doing.length - place.length - 2;
  return `${doing} ${cutMiddle(printable(name), Math.max(room, 8), '...')}${place}`;
};

interface StepLine {
  readonly show: (text: string) => void;
  readonly stop: () => void;
}

const makeLine = async (stream: NodeJS.WriteStream): Promise<StepLine> => {
  const { SingleBar } = (await import('cli-progress')).default;
  const bar = new SingleBar({ stream, format: '{text}', clearOnComplete: true, linewrap: true });
  let isShown = false;
  return {
    show: (text) => {
      if (isShown) bar.update({ text });
      else bar.start(1, 0, { text });
      isShown = true;
      // The work that follows leaves the bar's own clock no time.
      bar.render();
    },
    stop: () => bar.stop(),
  };
};
