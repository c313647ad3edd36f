import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const cpuTime = fileURLToPath(import.meta.resolve('./cpu-time.cjs'));

export const program = fileURLToPath(import.meta.resolve('../../dist/cli/main.js'));
export const child = fileURLToPath(import.meta.resolve('./child.js'));

/** Runs node to its end; the CPU time it took in milliseconds. */
export const node = (...args) => {
  const { status, stderr, output } = spawnSync(process.execPath, ['--require', cpuTime, ...args], {
    encoding: 'utf8',
    stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
  });
  if (status !== 0) throw new Error(`${args.join(' ')}: ${stderr}`);
  return Number(output[3]) / 1000;
};

/** Runs a task of `child.js` and gives what it printed, or why it failed. */
export const childResult = (megabytes, ...args) => {
  const memory = `--max-old-space-size=${megabytes}`;
  const { status, stdout, stderr } = spawnSync(process.execPath, [memory, child, ...args], {
    encoding: 'utf8',
  });
  return status === 0 ? JSON.parse(stdout) : { failed: stderr.trim().split('\n').at(-1) ?? '' };
};
