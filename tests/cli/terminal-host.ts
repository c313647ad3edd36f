import type { Host } from '../../src/cli/streams.ts';

/** What a command wrote. */
export interface Written {
  stdout: string;
  stderr: string;
}

/** Where a result goes: a terminal of so many columns, or a pipe. */
export type Window = number | 'piped';

/**
 * A process as the command line sees it, that keeps what is written.
 *
 * @param env NO_COLOR is set unless another environment is given
 */
export const hostOf = (
  window: Window,
  env: Host['env'] = { NO_COLOR: '1' },
): { readonly host: Host; readonly written: Written } => {
  const written: Written = { stdout: '', stderr: '' };
  const stream = (name: keyof Written, isTTY: boolean): NodeJS.WriteStream =>
    ({
      isTTY,
      ...(window === 'piped' ? {} : { columns: window }),
      write: (text: string): boolean => {
        written[name] += text;
        return true;
      },
      on: () => undefined,
      once: () => undefined,
    }) as unknown as NodeJS.WriteStream;
  // Progress and warnings go to a log: what is looked at here is the result.
  const host = {
    stdout: stream('stdout', window !== 'piped'),
    stderr: stream('stderr', false),
    env,
  };
  return { host, written };
};
